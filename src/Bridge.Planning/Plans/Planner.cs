using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Turns a shape into a short job that works every cell of it: the fewest records that are found, then little time among
/// those. The same shape, machine and effort always give the same job.
/// </summary>
public static class Planner
{
    /// <summary>The effort of a plan that nobody asks more or less for: 1.</summary>
    public const double FullEffort = 1;

    private const long CuttingSteps = 1_500_000_000;
    private const long MostStepsOfMask = 150_000_000;
    private const long RouteSteps = 400_000_000;
    internal const long MostStepsOfRoute = 60_000_000;

    /// <summary>Plans a shape for a machine; the plan may be longer than the machine's store.</summary>
    /// <param name="shape">What is wanted.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="effort">How hard to try, 0 to 1000; 1 is about a second at most for each of cutting and routing.</param>
    /// <param name="ended">Ends it early, with the best found so far: then it is up to chance which that is.</param>
    /// <exception cref="RefusedException">Nothing is to be worked, or the machine lacks the place or the head for it.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The effort is out of range.</exception>
    public static Plan Plan(Shape shape, Machine machine, double effort = FullEffort, CancellationToken ended = default)
    {
        if (!(effort >= 0 && effort <= 1000))
            throw new ArgumentOutOfRangeException(nameof(effort), effort, "The effort is 0 to 1000.");
        if (MachineFit.Refusal(shape, machine) is { } refusal)
            throw new RefusedException([refusal]);
        var shapeParts = new ShapeParts(shape, machine.MayOverprint, (long)(effort * CuttingSteps), (long)(effort * MostStepsOfMask), ended);
        var parts = shapeParts.InOrder();
        var stretches = Repeats.Find(parts, machine.Width, machine.Grid.Layers);
        var writer = new JobWriter(machine, parts, stretches, (long)(effort * RouteSteps), (long)(effort * MostStepsOfRoute), ended);
        writer.Write();
        var records = writer.Records;
        if (records.Count != machine.StoreBytes / machine.Width.Bytes) // a store full to its last record needs no end
            records.Add(Record.End);
        var costs = Enumerable.Range(0, shapeParts.LayerCount)
            .Select(layer => Cost(shape, layer, writer.RecordsOfLayer[layer], machine.Width, shapeParts.Bounds(layer)));
        return new Plan(records, machine.Width, machine.StoreBytes, [.. costs]);
    }

    private static LayerCost Cost(Shape shape, int layer, int records, RecordWidth width, (int Rectangles, int AtLeast) bounds) =>
        new(layer, records, (long)records * width.Bytes, shape.Count(layer, Head.A), shape.Count(layer, Head.B), bounds.Rectangles, bounds.AtLeast);
}
