using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Shapes as text layers: a character for a cell (A or B, dot or space for empty), <c>---</c> between layers, <c>#</c> before comments.</summary>
public static class ShapeText
{
    /// <summary>Reads text layers: the lowest layer first, the far edge (largest y) first, x = 0 first.</summary>
    /// <exception cref="RefusedException">A character, a line or a layer is not as it should be; the refusal names its place.</exception>
    public static Shape Parse(ReadOnlySpan<byte> text, string name, ShapeOptions options)
    {
        var layers = new LayerStack(name, options.Limit);
        var marks = new byte[options.Limit.X];
        var lines = new Lines(text);
        while (lines.Next())
        {
            if (lines.Text is [(byte)'#', ..])
                continue;
            if (lines.Text.SequenceEqual(LayerStack.Separator))
                layers.EndLayer(lines.Number);
            else
                layers.Add(Marks(lines, marks, layers), lines.Number);
        }
        return layers.Finish(lines.Number);
    }

    /// <summary>Writes a shape so that reading gives it back, lines ending with LF.</summary>
    public static void Write(Shape shape, TextWriter writer)
    {
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            writer.Write(layer == 0 ? "" : "---\n");
            for (var y = shape.Depth - 1; y >= 0; y--)
            {
                for (var x = 0; x < shape.Width; x++)
                    writer.Write(shape[x, y, layer] switch { Head.A => 'A', Head.B => 'B', _ => '.' });
                writer.Write('\n');
            }
        }
    }

    private static ReadOnlySpan<byte> Marks(Lines line, byte[] marks, LayerStack layers)
    {
        for (var i = 0; i < line.Text.Length; i++)
        {
            if (i == marks.Length)
                throw layers.TooWide(line.Number, i + 1);
            if (!LayerStack.TryMark(line.Text[i], out marks[i]))
                throw layers.Unknown(line.Text[i..], line.Number, i + 1);
        }
        return marks.AsSpan(0, line.Text.Length);
    }
}
