using Bridge.Runs;

namespace Bridge.History;

/// <summary>The part of a report about the work: each layer as it was worked, and where that is not as planned.</summary>
internal static class WorkSection
{
    private const int MostPictures = 48;
    private const int MostDoubts = 20;
    private const int MostPixels = 520; // a page of many layers stays small, and a third of its width needs no more

    public static Section Of(PastRun run, WorkedCells worked)
    {
        var job = run.Job!;
        var planned = WorkedCells.Of(job.Job.Image, job.Machine.Grid);
        var layers = planned.Layers.Union(worked.Layers).Order()
            .Select(layer => (Layer: layer, Differences: worked.CountDifferences(planned, layer))).ToList();
        var differences = layers.Sum(layer => layer.Differences);

        // Those that differ first, where there are more than a page can hold.
        var shown = layers.OrderByDescending(layer => layer.Differences > 0).ThenBy(layer => layer.Layer)
            .Take(MostPictures).OrderBy(layer => layer.Layer).ToList();
        var pictures = shown.AsParallel().AsOrdered().Select(layer => (
            LayerPicture.Draw(worked, layer.Layer, planned, MostPixels),
            $"layer {layer.Layer}: {(layer.Differences == 0 ? "as planned" : Words.Count(layer.Differences, "cell") + " not as planned")}")).ToList();
        return new Section("Work", [
            new Block.Words(differences == 0
                ? $"Every cell was worked as planned, as the device told{(run.Doubts.Any() ? ", but for what was in doubt" : "")}."
                : $"{Words.Count(differences, "cell")} not as planned, as the device told: a cross was not worked, a triangle was worked otherwise.",
                IsWarning: differences > 0),
            .. run.Doubts.Take(MostDoubts).Select(doubt => new Block.Words(SettledDoubtWords.Of(doubt), IsWarning: true)),
            .. run.Doubts.Skip(MostDoubts).Any() ? new Block[] { new Block.Words("And more that was in doubt: the journal has it.", IsWarning: true) } : [],
            .. Truth(run),
            new Block.Pictures(pictures),
            .. layers.Count > shown.Count
                ? new Block[] { new Block.Words($"And {layers.Count - shown.Count} more layers; the folder has a picture of each.") }
                : []]);
    }

    private static IEnumerable<Block> Truth(PastRun run)
    {
        if (run.Summary?.CellsNotAsTold is > 0 and var cells)
            yield return new Block.Words($"What the mock's gantry really worked differs from this in {Words.Count(cells, "cell")}: "
                + "its motors skipped steps, or it went on while nothing was heard of it.", IsWarning: true);
    }
}
