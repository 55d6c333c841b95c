using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>A change of layer in a job, at which a machine may find its zero anew.</summary>
/// <param name="Record">The record that begins the layer, each `again` unrolled, from 0.</param>
/// <param name="Layer">The layer, from 0.</param>
/// <param name="InTheWay">What the job has built by then where the head would come down, and its layer; null where the way is free.</param>
public sealed record LayerChange(long Record, int Layer, (Cell Cell, int Layer)? InTheWay)
{
    /// <summary>Of a whole job, in its order.</summary>
    public static IEnumerable<LayerChange> Of(ProvedJob job)
    {
        var built = new WorkedCells(job.Machine.Grid);
        var passes = new PassReader(job.Job.Image, job.Machine.Grid);
        for (var record = 0L; passes.TryNext(out var pass); record++)
        {
            if (record > 0 && pass.Entry.Layer != pass.Before.Layer)
                yield return new LayerChange(record, pass.Entry.Layer, DescentCheck.FirstInTheWay(job.Machine, built));
            foreach (var cell in pass.Work)
                built.Add(cell, pass.Entry.Layer, pass.Entry.Head);
        }
    }
}
