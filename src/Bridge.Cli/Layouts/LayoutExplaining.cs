using Bridge.Jobs;
using Bridge.Layouts;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>bridge explain --layout: the records of a layout, each with what it does.</summary>
internal static class LayoutExplaining
{
    /// <summary>
    /// Explains the bytes of an image; on the grid and with the times of a machine where one is given, else on all places that the layout counts.
    /// </summary>
    /// <exception cref="RefusedException">The bytes are no image of the layout.</exception>
    public static JobExplanation Of(string path, Layout layout, Machine? machine)
    {
        var image = LayoutImage.Parse(layout, JobInput.ReadPlain(path, "--layout"), path);
        var grid = machine?.Grid ?? new Grid(layout.PositionsX, layout.PositionsY, Grid.MostLayers);
        var translation = LayoutTranslation.Of(image, machine?.Width ?? RecordWidth.Twelve, grid);
        var all = image.ToBytes();
        return JobExplanation.Of(Shown.Of(Path.GetFileName(path)), new TranslatedJob
        {
            Count = image.Words.Count,
            RecordBytes = layout.RecordBytes,
            RecordAt = index => RecordOf(layout, image.Words[index], all.AsMemory(index * layout.RecordBytes, layout.RecordBytes)),
            Reading = $"the layout {layout.Name}, the bits as they stand in the bytes; {SheetBoxes.Of(layout).HowCounted}",
            Image = translation.Image,
            Origins = translation.Origins,
            Grid = grid,
            Fault = translation.Fault,
        }, machine);
    }

    private static TranslatedRecord RecordOf(Layout layout, ulong word, ReadOnlyMemory<byte> bytes) => new(
        bytes, LayoutBits.Of(layout, word), LayoutWords.Meaning(layout, word), layout.VerbOf(word)?.Act is not (LayoutAct.Again or LayoutAct.End));
}
