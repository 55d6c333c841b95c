using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Shapes as comma-separated cells, one line of cells a line: A, B, a dot or nothing; otherwise as text layers. Cells may be quoted (RFC 4180).
/// </summary>
public static class ShapeCsv
{
    /// <summary>Reads comma-separated cells: the lowest layer first, the far edge (largest y) first, x = 0 first.</summary>
    /// <exception cref="RefusedException">A cell, a line or a layer is not as it should be; the refusal names its place.</exception>
    public static Shape Parse(ReadOnlySpan<byte> text, string name, ShapeOptions options)
    {
        var layers = new LayerStack(name, options.Limit);
        var marks = new byte[options.Limit.X];
        var lines = new Lines(text);
        while (lines.Next())
        {
            if (lines.Text is [(byte)'#', ..] or [(byte)'"', (byte)'#', ..])
                continue;
            if (IsSeparator(lines.Text))
                layers.EndLayer(lines.Number);
            else
                layers.Add(Marks(lines, marks, layers), lines.Number);
        }
        return layers.Finish(lines.Number);
    }

    // A spreadsheet fills such a line up with empty cells.
    private static bool IsSeparator(ReadOnlySpan<byte> line) => line.TrimEnd((byte)',').SequenceEqual(LayerStack.Separator);

    private static ReadOnlySpan<byte> Marks(Lines line, byte[] marks, LayerStack layers)
    {
        if (line.Text.IsEmpty)
            return default;
        var count = 0;
        for (var start = 0; start <= line.Text.Length;)
        {
            if (count == marks.Length)
                throw layers.TooWide(line.Number, start + 1);
            var length = line.Text[start..].IndexOf((byte)',');
            var end = length < 0 ? line.Text.Length : start + length;
            marks[count++] = Mark(line, start, end, layers);
            start = end + 1;
        }
        return marks.AsSpan(0, count);
    }

    private static byte Mark(Lines line, int start, int end, LayerStack layers)
    {
        if (line.Text[start..end] is [(byte)'"', .., (byte)'"'] quoted && quoted.Length > 1)
            (start, end) = (start + 1, end - 1);
        if (start == end)
            return Shape.Empty;
        if (!LayerStack.TryMark(line.Text[start], out var mark))
            throw layers.Unknown(line.Text[start..], line.Number, start + 1);
        if (end - start > 1)
            throw layers.Refused(line.Number, start + 2, "a cell of more than one character",
                "A, B, a dot or nothing between commas", "Put a comma between cells.");
        return mark;
    }
}
