using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>What would help a job that does not fit the store; each piece of advice was planned and counted.</summary>
public static class PlanAdvice
{
    private const double WorthTelling = 0.9; // a change that saves less than a tenth and does not make it fit is not worth a try
    private const double Brief = 0.1; // of the effort, for each change that is tried
    private const long EvenSteps = 500_000_000;
    private const long SmoothSteps = 200_000_000;
    private static readonly int[] ThresholdSteps = [16, -16, 32, -32, 64, -64];
    private static readonly int[] Percents = [75, 50];

    /// <summary>Advice in plain sentences, the store it would need first; empty where the job fits.</summary>
    /// <param name="shape">The shape, without support that a plan would add.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="limits">How far cells may be changed, and another threshold; what is allowed is not asked.</param>
    /// <param name="plan">The plan of the shape with its support; null to make it.</param>
    /// <param name="effort">How hard to plan, as for <see cref="Planner.Plan"/>.</param>
    /// <exception cref="RefusedException">The machine cannot work the shape at all.</exception>
    public static IReadOnlyList<string> For(Shape shape, Machine machine, FitLimits? limits = null, Plan? plan = null, double effort = Planner.FullEffort)
    {
        limits ??= new FitLimits();
        var held = limits.AddSupport ? Support.Under(shape, machine) : shape;
        plan ??= Planner.Plan(held, machine, effort);
        if (plan.Fits)
            return [];
        var needed = plan.ImageBytes - plan.Width.Bytes; // a store that is then full needs no end
        List<string> advice =
        [
            $"A store of at least {needed} bytes would hold it (full to its last record it needs no end); this one holds {plan.StoreBytes}.",
        ];
        if (LowestThatFit(plan) is > 0 and var layers && held.Lowest(layers) is { IsEmptyEverywhere: false } lowest)
            Tell($"The lowest {(layers == 1 ? "layer" : $"{layers} layers")} alone", Planner.Plan(lowest, machine, effort * Brief));
        foreach (var changes in Changes(shape, machine, limits))
            if (Best(changes, machine, limits.AddSupport, effort * Brief) is var (change, other))
                Tell(change, other);
        return advice;

        void Tell(string change, Plan other)
        {
            if (other.Fits)
                advice.Add($"{change}: {other.ImageBytes} bytes, which fits.");
            else if (other.ImageBytes <= plan.ImageBytes * WorthTelling)
                advice.Add($"{change}: {other.ImageBytes} bytes, which is shorter but still too long.");
        }
    }

    // Of each kind of change some; the first that fits is told, or that which takes the fewest bytes.
    private static IEnumerable<IEnumerable<(string Change, FitCandidate Candidate)>> Changes(Shape shape, Machine machine, FitLimits limits)
    {
        var asItIs = new FitCandidate(Orientation.AsItIs, 100, shape, []);
        yield return Orientation.All.Where(way => way is { Below: Face.Bottom, Quarters: > 0 }).Select(Lying);
        yield return Orientation.All.Where(way => way.Below != Face.Bottom && way.Quarters < 2 && !machine.MayOverprint).Select(Lying);
        yield return [("Mirrored along X", asItIs with { Base = shape.Mirrored() })];
        yield return [("Worked by head a alone", asItIs with { Base = shape.WorkedBy(Head.A) })];
        yield return [("Without the cells that stand alone on their layer", asItIs with { Base = shape.WithoutLoneCells() })];
        yield return [Edited("Closed hollows worked solid", [Edit.Between("", shape, shape.Filled())])];
        yield return [Edited("Made hollow, walls of 1", [Edit.Between("", shape, shape.Hollowed(1, machine.OverhangCells))])];
        if (limits.AtThreshold is { } at)
            yield return ThresholdSteps.Select(step => limits.Threshold + step).Where(threshold => threshold is > 0 and < 256)
                .Select(threshold => Edited($"Threshold {threshold}", [Edit.Between("", shape, at((byte)threshold))]));
        yield return Evening.Proposals(shape, limits.MostCells, new Effort(EvenSteps)).TakeLast(1).Select(edits => Edited("Layers made alike", edits));
        if (Smoothing.Edits(shape, machine, limits.MostCells, new Effort(SmoothSteps)) is { Count: > 0 } edits)
            yield return [Edited("Smoothed", edits.ConvertAll(edit => edit.Edit))];
        yield return Percents.Select(percent =>
            ($"Made {percent} % of its size", new FitCandidate(Orientation.AsItIs, percent, shape.Scaled(percent), [])));

        (string, FitCandidate) Lying(Orientation way) => (Capital($"{way}"), new FitCandidate(way, 100, way.Of(shape), []));
        (string, FitCandidate) Edited(string words, IReadOnlyList<Edit> edits) =>
            ($"{words} ({edits.Sum(edit => (long)edit.Cells.Count)} cells changed)", asItIs with { Edits = edits });
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static (string Change, Plan Plan)? Best(
        IEnumerable<(string Change, FitCandidate Candidate)> changes, Machine machine, bool addSupport, double effort)
    {
        (string Change, Plan Plan)? best = null;
        foreach (var (change, candidate) in changes)
        {
            if (candidate.Worked(candidate.Made().Edited, machine, addSupport) is not { } worked)
                continue;
            var plan = Planner.Plan(worked, machine, effort);
            if (best is null || plan.Records.Count < best.Value.Plan.Records.Count)
                best = (change, plan);
            if (plan.Fits)
                break;
        }
        return best;
    }

    private static int LowestThatFit(Plan plan)
    {
        long free = plan.StoreBytes;
        return plan.Layers.TakeWhile(layer => (free -= layer.Bytes) >= 0).Count();
    }
}
