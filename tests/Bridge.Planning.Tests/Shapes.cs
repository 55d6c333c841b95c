using System.Text;
using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

internal static class Shapes
{
    public static readonly ShapeOptions Any = new();

    public static Shape Text(string text, ShapeOptions? options = null) => ShapeText.Parse(Encoding.UTF8.GetBytes(text), "fish.txt", options ?? Any);

    public static Shape Csv(string text, ShapeOptions? options = null) => ShapeCsv.Parse(Encoding.UTF8.GetBytes(text), "fish.csv", options ?? Any);

    public static string Written(Shape shape)
    {
        var text = new StringWriter();
        ShapeText.Write(shape, text);
        return text.ToString();
    }

    // Noise of any density, or a few overlapping boxes of either head; some layers stay empty.
    public static Gen<Shape> Random(int maxWidth, int maxDepth, int maxLayers) =>
        from width in Gen.Int[1, maxWidth]
        from depth in Gen.Int[1, maxDepth]
        from layers in Gen.Int[1, maxLayers]
        from boxes in Gen.Select(Gen.Int[0, width - 1], Gen.Int[0, depth - 1], Gen.Int[0, layers - 1], Gen.Int[1, 8], Gen.Int[1, 8], Gen.Bool).Array[0, 12]
        from noise in Gen.Select(Gen.Int[0, width - 1], Gen.Int[0, depth - 1], Gen.Int[0, layers - 1], Gen.Bool).Array[0, width * depth]
        select Drawn(width, depth, layers, [.. boxes, .. noise.Select(cell => (cell.Item1, cell.Item2, cell.Item3, 1, 1, cell.Item4))]);

    private static Shape Drawn(int width, int depth, int layers, (int X, int Y, int Layer, int CellsX, int CellsY, bool IsB)[] boxes)
    {
        var shape = new ShapeBuilder(width, depth, layers);
        foreach (var box in boxes)
            for (var x = box.X; x < Math.Min(width, box.X + box.CellsX); x++)
                for (var y = box.Y; y < Math.Min(depth, box.Y + box.CellsY); y++)
                    shape.Work(new Cell(x, y), box.Layer, box.IsB ? Head.B : Head.A);
        return shape.Build();
    }
}
