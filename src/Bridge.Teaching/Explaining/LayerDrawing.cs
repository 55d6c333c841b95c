using System.Text;
using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>Layers as drawings in a page (SVG), the far edge on top: runs of cells of head a are filled bars, of head b hollow ones.</summary>
internal static class LayerDrawing
{
    /// <summary>The most layers that are drawn: 64.</summary>
    public const int MostLayers = 64;

    /// <summary>Writes every layer that holds a cell, the lowest first.</summary>
    public static void WriteAll(WorkedCells worked, TextWriter output)
    {
        if (!worked.Layers.Any())
            return;
        output.WriteLine("<h2 class=\"layers\">Layers</h2>\n<p>Filled: head a. Hollow: head b. The far edge is on top.</p>\n<div class=\"layers\">");
        foreach (var layer in worked.Layers.Take(MostLayers))
            Write(worked, layer, output);
        output.WriteLine("</div>");
        var more = worked.Layers.Count() - MostLayers;
        if (more > 0)
            output.WriteLine($"<p>{more} more layers are not drawn.</p>");
    }

    private static void Write(WorkedCells worked, int layer, TextWriter output)
    {
        var grid = worked.Grid;
        output.WriteLine($"<figure><svg viewBox=\"-0.5 -0.5 {grid.X + 1} {grid.Y + 1}\" role=\"img\" aria-label=\"layer {layer}\">"
            + $"<rect class=\"grid\" width=\"{grid.X}\" height=\"{grid.Y}\"/>"
            + $"<path class=\"a\" d=\"{Runs(worked, layer, Head.A, 0.1)}\"/><path class=\"b\" d=\"{Runs(worked, layer, Head.B, 0.2)}\"/></svg>"
            + $"<figcaption>layer {layer}</figcaption></figure>");
    }

    private static string Runs(WorkedCells worked, int layer, Head head, double gap)
    {
        var path = new StringBuilder();
        for (var y = 0; y < worked.Grid.Y; y++)
            for (var x = 0; x < worked.Grid.X; x++)
            {
                var first = x;
                while (x < worked.Grid.X && worked.Has(new Cell(x, y), layer, head))
                    x++;
                if (x > first)
                    path.Append(FormattableString.Invariant(
                        $"M{first + gap:0.#} {worked.Grid.Y - 1 - y + gap:0.#}h{x - first - 2 * gap:0.#}v{1 - 2 * gap:0.#}h{2 * gap - x + first:0.#}z"));
            }

        return path.ToString();
    }
}
