using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Turns a shape into a short job that works every cell of it once. The same shape and machine always give the same job.</summary>
public static class Planner
{
    /// <summary>Plans a shape for a machine; the plan may be longer than the machine's store.</summary>
    /// <exception cref="RefusedException">Nothing is to be worked, or the machine lacks the place or the head for it.</exception>
    public static Plan Plan(Shape shape, Machine machine)
    {
        if (MachineFit.Refusal(shape, machine) is { } refusal)
            throw new RefusedException([refusal]);
        var job = new JobDraft(machine.Width);
        List<LayerCost> costs = [];
        var highest = Enumerable.Range(0, shape.Layers).Last(layer => !shape.IsEmpty(layer));
        for (var layer = 0; layer <= highest; layer++)
        {
            var before = job.Records.Count;
            WorkLayer(job, shape, layer);
            costs.Add(Cost(shape, layer, job.Records.Count - before, machine.Width));
        }
        if (job.Records.Count != machine.StoreBytes / machine.Width.Bytes) // a store full to its last record needs no end
            job.Records.Add(Record.End);
        return new Plan(job.Records, machine.Width, machine.StoreBytes, costs);
    }

    private static void WorkLayer(JobDraft job, Shape shape, int layer)
    {
        if (layer > 0)
            job.Rise();
        if (shape.IsEmpty(layer))
            job.Pass();
        foreach (var head in job.Head == Head.A ? new[] { Head.A, Head.B } : [Head.B, Head.A])
            if (Mask.Of(shape, layer, head) is { } mask)
                job.Work(Cutting.Of(mask, mayOverlap: false).Blocks, head); // a pen that passes twice draws darker, so each cell is worked once
    }

    private static LayerCost Cost(Shape shape, int layer, int records, RecordWidth width) =>
        new(layer, records, (long)records * width.Bytes, shape.Count(layer, Head.A), shape.Count(layer, Head.B));
}
