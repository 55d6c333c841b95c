using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Panel;

/// <summary>The job at hand as a page gets it; PANEL.md has the meaning of each.</summary>
public sealed record JobView(
    string Id, string Name, GridView Grid, int Records, long RecordsInAll, long Bytes, int StoreBytes, bool Fits, int? Gap,
    long Cells, long CellsA, long CellsB,
    double Seconds, bool IsProved, bool CanRun, IReadOnlyList<LayerView> Layers, IReadOnlyList<RefusalView> Faults, IReadOnlyList<RefusalView> Cautions,
    IReadOnlyList<string> Told, IReadOnlyList<string> Advice, IReadOnlyList<CostView> Costs)
{
    /// <summary>Of a job for a machine.</summary>
    public static JobView Of(JobAtHand job, Machine machine)
    {
        var image = job.File.Image;
        var fits = image.Bytes.Length <= machine.StoreBytes;
        return new JobView(
            job.Id, job.Name, new GridView(job.File.Grid.X, job.File.Grid.Y, job.File.Grid.Layers), image.Count, job.Proof.Passes + (image.HasEnd ? 1 : 0),
            image.Bytes.Length, machine.StoreBytes, fits, job.Plan?.Gap, job.Layers.Sum(layer => layer.Cells), job.Layers.Sum(layer => layer.CellsA),
            job.Layers.Sum(layer => layer.CellsB), job.Times.Seconds, job.Proof.IsProved, job.Proof.IsProved && fits,
            [.. job.Layers.Select(layer => LayerView.Of(layer, job))], [.. job.Proof.Faults.Select(fault => Placed(fault, job))],
            [.. job.Proof.Cautions.Select(fault => Placed(fault, job))], job.Told, job.Advice,
            job.Plan is null ? [] : [.. PlanCosts.Of(job.Plan).Select(cost => new CostView(cost.Feature, HeadNames.Of(cost.Head), cost.Records, cost.Bytes))]);
    }

    // Where it is not about cells, it is about those that its record works, first and last.
    private static RefusalView Placed(JobFault fault, JobAtHand job)
    {
        var view = RefusalView.Of(fault);
        if (view.Cells.Count > 0 || view.Record is null)
            return view;
        var passes = new PassReader(job.File.Image, job.File.Grid);
        while (passes.TryNext(out var pass))
            if (pass.Index == view.Record)
                return view with
                {
                    Cells = [new CellView(pass.Entry.Layer, pass.Entry.Cell.X, pass.Entry.Cell.Y),
                        new CellView(pass.Entry.Layer, pass.After.Cell.X, pass.After.Cell.Y)],
                };
        return view;
    }
}

/// <summary>A grid.</summary>
public sealed record GridView(int X, int Y, int Layers);

/// <summary>A layer of the job at hand; records, bytes and bound are known only of a plan.</summary>
public sealed record LayerView(int Layer, int? Records, long? Bytes, int? AtLeast, long CellsA, long CellsB, double Seconds, long FirstCell, long Cells)
{
    /// <summary>Of a layer of a job.</summary>
    public static LayerView Of(WorkedLayer layer, JobAtHand job)
    {
        LayerCost? cost = job.Plan is { } plan && layer.Layer < plan.Layers.Count ? plan.Layers[layer.Layer] : null;
        return new LayerView(layer.Layer, cost?.Records, cost?.Bytes, cost?.AtLeast, layer.CellsA, layer.CellsB, job.Times.SecondsPerLayer[layer.Layer],
            layer.FirstCell, layer.Cells);
    }
}

/// <summary>What a kind of records costs.</summary>
public sealed record CostView(string Feature, string? Head, int Records, long Bytes);

/// <summary>A record as bytes, bits and words.</summary>
/// <param name="Index">The record, from 0.</param>
/// <param name="Bytes">Its bytes in hexadecimal digits.</param>
/// <param name="Fields">Its fields with their bits.</param>
/// <param name="Words">What it means.</param>
public sealed record RecordView(int Index, string Bytes, IReadOnlyList<RecordField> Fields, string Words)
{
    /// <summary>Of a record of an image.</summary>
    public static RecordView Of(Image image, int index)
    {
        var (width, record) = (image.Width, image[index]);
        return new RecordView(index, Convert.ToHexString(image.Bytes.Span.Slice(index * width.Bytes, width.Bytes)), RecordField.Of(width, record),
            RecordWords.Meaning(width, record));
    }
}

/// <summary>Heads as pages name them.</summary>
internal static class HeadNames
{
    public static string? Of(Head? head) => head switch { Head.A => "a", Head.B => "b", _ => null };
}
