using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>
/// How long a job takes on a machine and how far its carriage goes. Holding for the operator counts as no time.
/// </summary>
/// <param name="Seconds">From the first record to the end, the lifting of the pen included.</param>
/// <param name="IdleMm">Way of the carriage without work, rises included, in mm.</param>
/// <param name="WorkMm">Way of the carriage at work, in mm.</param>
/// <param name="Cells">Cells worked.</param>
/// <param name="Passes">Records executed, repeats counted and `again` and `end` not.</param>
/// <param name="OperatorHolds">How often it holds until the operator goes on.</param>
/// <param name="SecondsPerRecord">
/// For each record of the image, the sum over its passes. What `end` does, or else the last record, includes the final lift.
/// </param>
/// <param name="SecondsPerLayer">For each layer of the grid; a rise counts for the layer it leads to.</param>
/// <param name="Fault">What stopped the job: all figures are then those up to there. Null where it is complete.</param>
public sealed record Timetable(
    double Seconds, double IdleMm, double WorkMm, long Cells, long Passes, long OperatorHolds,
    IReadOnlyList<double> SecondsPerRecord, IReadOnlyList<double> SecondsPerLayer, JobFault? Fault)
{
    /// <summary>
    /// Plays a job through. The time it takes grows with the passes, at most 100 million, and their straight legs; the memory
    /// does not.
    /// </summary>
    public static Timetable Of(Image image, Machine machine)
    {
        var passes = new ActingReader(image, machine);
        var perRecord = new double[image.Count];
        var perLayer = new double[machine.Grid.Layers];
        var (idle, work, cells, count, holds, layer) = (0.0, 0.0, 0L, 0L, 0L, 0);
        while (passes.TryNext(out var pass, out var acts))
        {
            count++;
            layer = pass.Entry.Layer;
            foreach (var act in acts)
                Add(pass.Index, act);
        }

        foreach (var act in passes.AtEnd())
            Add(image.Count - 1, act);
        return new Timetable(perLayer.Sum(), idle, work, cells, count, holds, perRecord, perLayer, passes.Fault);

        void Add(int index, in Act act)
        {
            var seconds = act.Seconds;
            perRecord[index] += seconds;
            perLayer[layer] += seconds;
            cells += act.Cells;
            if (act.Kind == ActKind.HoldForOperator)
                holds++;
            if (act.Works)
                work += act.TravelMm;
            else
                idle += act.TravelMm;
        }
    }
}
