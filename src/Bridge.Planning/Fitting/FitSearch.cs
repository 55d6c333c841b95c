using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Looks for the least change to a shape with which its job fits the store: turning and laying, which change no cell, first; then changes of cells, the
/// fewest first; and a smaller size, which is the largest change. Every change is planned and counted.
/// </summary>
public sealed class FitSearch
{
    private const double Quick = 0.05; // effort to look with
    private const double Careful = 0.3; // and with what is nearly short enough
    private const double Near = 1.15;
    private const int PercentStep = 5;
    private const int MostBases = 3; // ways to lie for which changes of cells are looked for
    private const int MostGivenBack = 40;
    private const long EvenSteps = 3_000_000_000;
    private const long SmoothSteps = 1_000_000_000;

    private readonly Shape _shape;
    private readonly Machine _machine;
    private readonly FitLimits _limits;
    private readonly Action<Fitted>? _better;
    private readonly CancellationToken _ended;
    private FitCandidate? _bestCandidate;
    private Fitted? _best;

    private FitSearch(Shape shape, Machine machine, FitLimits limits, Action<Fitted>? better, CancellationToken ended) =>
        (_shape, _machine, _limits, _better, _ended) = (shape, machine, limits, better, ended);

    /// <summary>The least change found that makes the job fit, none where it fits as it is; where nothing fits, what comes nearest.</summary>
    /// <param name="shape">The shape, without support that a plan would add.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="limits">What may be changed.</param>
    /// <param name="better">Told each find that is better than the one before; may be null.</param>
    /// <param name="ended">Ends the search early, with the best so far.</param>
    /// <exception cref="RefusedException">Nothing is to be worked, or in none of the ways allowed can the machine work it.</exception>
    public static Fitted Find(Shape shape, Machine machine, FitLimits limits, Action<Fitted>? better = null, CancellationToken ended = default)
    {
        if (shape.IsEmptyEverywhere)
            throw new RefusedException([MachineFit.Refusal(shape, machine)!]);
        var search = new FitSearch(shape, machine, limits, better, ended);
        search.Go();
        return search.Polished() ?? throw search.Unworkable();
    }

    private bool IsDone => _ended.IsCancellationRequested || _best is { Plan.Fits: true };

    private void Go()
    {
        var asItIs = new FitCandidate(Orientation.AsItIs, 100, _shape, []);
        var records = new List<(FitCandidate Candidate, int Records)> { (asItIs, Try(asItIs, Planner.FullEffort)?.Plan.Records.Count ?? int.MaxValue) };
        foreach (var way in Ways())
        {
            if (_ended.IsCancellationRequested || (_best is { Plan.Fits: true } && (_best.Change.IsNone || way.Below != Face.Bottom)))
                break;
            var candidate = new FitCandidate(way, 100, way.Of(_shape), []);
            records.Add((candidate, Try(candidate)?.Plan.Records.Count ?? int.MaxValue));
        }
        if (IsDone)
            return;
        if (_limits.Allows(FitChanges.Size))
            TrySizes();
        foreach (var (candidate, _) in Bases(records))
            TryCellChanges(candidate);
        GiveBack();
    }

    // Before changes of cells, which are less of a change but take longer: whoever ends the search early has something then.
    private void TrySizes() => Least((100 - FitLimits.SmallestPercent) / PercentStep, step =>
    {
        var percent = 100 - step * PercentStep;
        return !_ended.IsCancellationRequested && Try(new FitCandidate(Orientation.AsItIs, percent, _shape.Scaled(percent), [])) is { Plan.Fits: true };
    });

    // As it is, and the other ways that take the fewest records, each face once.
    private static IEnumerable<(FitCandidate Candidate, int Records)> Bases(List<(FitCandidate Candidate, int Records)> ways) =>
        ways.Take(1).Concat(ways.Skip(1).OrderBy(way => way.Records).DistinctBy(way => way.Candidate.Way.Below))
            .Where(way => way.Records < int.MaxValue).Take(MostBases);

    // Turns first, which bring hardly more than another try. On another face a turn matters only where the table is not square. A drawing on a sheet
    // cannot be laid: it would be mirrored, or a line.
    private IEnumerable<Orientation> Ways() => Orientation.All.Skip(1)
        .Where(way => way.Below == Face.Bottom
            ? _limits.Allows(FitChanges.Turn) && (_best is null || IsNear(_best.Plan))
            : _limits.Allows(FitChanges.Lay) && !_machine.MayOverprint)
        .Where(way => way.Below == Face.Bottom || way.Quarters < (_machine.Grid.X == _machine.Grid.Y ? 1 : 2));

    private void TryCellChanges(FitCandidate lying)
    {
        if (_limits.Allows(FitChanges.Solid))
            TryEdits(lying, [Edit.Between("closed hollows worked solid", lying.Base, lying.Base.Filled())]);
        for (var wall = 1; wall <= 3 && _limits.Allows(FitChanges.Hollow) && !_machine.MayOverprint; wall++)
            TryEdits(lying, [Edit.Between($"made hollow, walls of {wall}", lying.Base, lying.Base.Hollowed(wall, _machine.OverhangCells))]);
        if (_limits is { AtThreshold: { } at } && _limits.Allows(FitChanges.Grey))
            TryThresholds(lying, at);
        var evened = _limits.Allows(FitChanges.Even) ? Evening.Proposals(lying.Base, _limits.MostCells, new Effort(EvenSteps, _ended)).ToList() : [];
        var fewest = Least(evened.Count, number => TryEdits(lying, evened[number - 1]));
        if (_limits.Allows(FitChanges.Smooth))
            foreach (var start in new[] { 0, fewest - 1, fewest / 2, evened.Count }.Where(start => start >= 0 && start <= evened.Count).Distinct())
                TrySmoothing(lying, start == 0 ? [] : evened[start - 1]);
    }

    private void TryThresholds(FitCandidate lying, Func<byte, Shape> at)
    {
        foreach (var way in new[] { 1, -1 })
        {
            List<Edit> edits = [];
            for (var threshold = _limits.Threshold + 4 * way; threshold is >= 1 and <= 255 && !_ended.IsCancellationRequested; threshold += 4 * way)
            {
                var edit = Edit.Between($"threshold {threshold} in place of {_limits.Threshold}", lying.Base, lying.Way.Of(at((byte)threshold)));
                if (edit.Cells.Count > _limits.MostCells)
                    break;
                if (edit.Cells.Count > (edits.Count == 0 ? 0 : edits[^1].Cells.Count))
                    edits.Add(edit);
            }
            Least(edits.Count, number => TryEdits(lying, [edits[number - 1]]));
        }
    }

    private void TrySmoothing(FitCandidate lying, List<Edit> evened)
    {
        var start = lying with { Edits = evened };
        if (_ended.IsCancellationRequested || Try(start) is not { Plan.Fits: false } planned)
            return;
        var left = Math.Min(_limits.MostCells, Most()) - planned.Change.Cells;
        var smoothed = Smoothing.Edits(start.Made().Edited, _machine, left, new Effort(SmoothSteps, _ended)).ConvertAll(edit => edit.Edit);
        Least(smoothed.Count, number => TryEdits(lying, [.. evened, .. smoothed.Take(number)]));
    }

    // Cells that a change may change to be less than the best one.
    private long Most() => _best is { Plan.Fits: true, Change.Percent: 100 } ? _best.Change.Cells - 1 : long.MaxValue;

    // The lowest number from 1 on that fits, as if all above one that fits did too; one more than the highest where that does not fit.
    private int Least(int highest, Func<int, bool> fits)
    {
        if (highest == 0 || !fits(highest))
            return highest + 1;
        var (low, high) = (0, highest);
        while (high - low > 1 && !_ended.IsCancellationRequested)
            if ((low + high) / 2 is var middle && fits(middle))
                high = middle;
            else
                low = middle;
        return high;
    }

    // Takes back what is not needed: many edits at once first, then fewer, at last one by one.
    private void GiveBack()
    {
        var tries = 0;
        for (var together = (_bestCandidate?.Edits.Count ?? 0) / 2; together > 0; together /= 2)
            for (var first = 0; _bestCandidate is { Edits: { Count: > 1 } edits } && first < edits.Count; first += together)
                if (_best is { Plan.Fits: true } && tries++ < MostGivenBack && !_ended.IsCancellationRequested)
                {
                    var candidate = _bestCandidate;
                    TryEdits(candidate, [.. edits.Take(first), .. edits.Skip(first + together)]);
                    if (_bestCandidate != candidate)
                        first -= together; // what came after has moved up
                }
    }

    private bool TryEdits(FitCandidate lying, IReadOnlyList<Edit> edits) =>
        edits.Sum(edit => (long)edit.Cells.Count) is > 0 && !_ended.IsCancellationRequested && Try(lying with { Edits = edits }) is { Plan.Fits: true };

    private Fitted? Try(FitCandidate candidate, double effort = Quick)
    {
        var (edited, change) = candidate.Made();
        if (change.Cells > _limits.MostCells || candidate.Worked(edited, _machine, _limits.AddSupport) is not { } worked)
            return null;
        var plan = Planner.Plan(worked, _machine, effort, _ended);
        if (effort < Careful && !plan.Fits && IsNear(plan))
            plan = Planner.Plan(worked, _machine, Careful, _ended);
        var tried = new Fitted(change, worked, plan);
        if (_best is null || IsBetter(tried, _best))
        {
            (_best, _bestCandidate) = (tried, candidate);
            _better?.Invoke(tried);
        }
        return tried;
    }

    private static bool IsNear(Plan plan) => plan.ImageBytes <= Near * plan.StoreBytes;

    private static bool IsBetter(Fitted one, Fitted other) => one.Plan.Fits != other.Plan.Fits
        ? one.Plan.Fits
        : one.Plan.Fits
            ? (one.Change.Weight, one.Plan.Records.Count).CompareTo((other.Change.Weight, other.Plan.Records.Count)) < 0
            : (one.Plan.Records.Count, one.Change.Weight).CompareTo((other.Plan.Records.Count, other.Change.Weight)) < 0;

    // What was found with little effort, planned well.
    private Fitted? Polished()
    {
        if (_best is null || _ended.IsCancellationRequested)
            return _best;
        var plan = Planner.Plan(_best.Worked, _machine, Planner.FullEffort, _ended);
        return plan.Records.Count <= _best.Plan.Records.Count ? _best with { Plan = plan } : _best;
    }

    private RefusedException Unworkable()
    {
        if (MachineFit.Refusal(_shape, _machine) is { } refusal)
            return new RefusedException([refusal]);
        if (!_limits.AddSupport && Support.Falling(_shape, _machine) is { } falling)
            return new RefusedException([falling]);
        Support.Under(_shape, _machine);
        return new RefusedException("the shape", "no way to work it", "one at least", "Allow more changes.");
    }
}
