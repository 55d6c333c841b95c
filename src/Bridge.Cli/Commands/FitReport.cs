using Bridge.Jobs;
using Bridge.Planning;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Tells what was changed about a shape so that its job fits: in words, and as pictures before and after.</summary>
internal static class FitReport
{
    private const int WidestText = 64;
    private const int MostText = 24; // layers

    /// <summary>What was changed, or that nothing was.</summary>
    public static void Tell(Report report, FitChange change)
    {
        if (change.IsNone)
        {
            report.Line("Nothing was changed.");
            return;
        }
        report.Heading($"Changed: {change}.");
        if (change.Cells == 0)
        {
            report.Line(change.Percent == 100 ? "No cell of the shape is lost or added." : "A cell stands for several of the shape as it was given.");
            return;
        }
        if (change.Before.Width <= WidestText && change.Before.Depth <= WidestText)
            Draw(report.Output, change);
    }

    /// <summary>
    /// The changed layers before and after, as the shape was given; where it was turned, laid or made smaller, all layers as they are worked too.
    /// </summary>
    public static void DrawPictures(Report report, Shape given, Fitted found, string folder) => PictureFolder.Fill(report, "--fit-pictures", folder, () =>
    {
        Directory.CreateDirectory(folder);
        var isSmaller = found.Change.Percent < 100;
        var count = isSmaller ? DrawAll(given, folder, "before") : 0;
        foreach (var layer in found.Change.Layers)
            count += Draw(found.Change.Before, layer, folder, "before") + Draw(found.Change.After, layer, folder, "after");
        if (isSmaller || found.Change.Way != Orientation.AsItIs)
            count += DrawAll(found.Worked, folder, "worked");
        return count;
    });

    private static int DrawAll(Shape shape, string folder, string when) =>
        Enumerable.Range(0, shape.Layers).Where(layer => !shape.IsEmpty(layer)).Sum(layer => Draw(shape, layer, folder, when));

    private static int Draw(Shape shape, int layer, string folder, string when)
    {
        var worked = new WorkedCells(new Grid(shape.Width, shape.Depth, 1));
        for (var y = 0; y < shape.Depth; y++)
            for (var x = 0; x < shape.Width; x++)
                if (shape[x, y, layer] is { } head)
                    worked.Add(new Cell(x, y), 0, head);
        File.WriteAllBytes(Path.Combine(folder, $"layer-{layer:000}-{when}.png"), LayerPicture.Draw(worked, 0));
        return 1;
    }

    private static void Draw(TextWriter output, FitChange change)
    {
        output.WriteLine("Before, and after: + put in, - left out, * by the other head.");
        var layers = change.Layers.ToList();
        for (var index = 0; index < Math.Min(layers.Count, MostText); index++)
        {
            output.WriteLine($"layer {layers[index]}");
            for (var y = change.Before.Depth - 1; y >= 0; y--)
                output.WriteLine($"  {Row(change, layers[index], y, isAfter: false)}   {Row(change, layers[index], y, isAfter: true)}");
        }
        if (layers.Count > MostText)
            output.WriteLine($"and {Counted.Of(layers.Count - MostText, "more layer")}: --fit-pictures draws all.");
    }

    private static string Row(FitChange change, int layer, int y, bool isAfter) =>
        string.Concat(Enumerable.Range(0, change.Before.Width).Select(x => (change.Before[x, y, layer], change.After[x, y, layer]) switch
        {
            (null, not null) when isAfter => '+',
            (not null, null) when isAfter => '-',
            var (before, after) when isAfter && before != after => '*',
            (Head.A, _) => 'A',
            (Head.B, _) => 'B',
            _ => '.',
        }));
}
