using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Shapes made smaller.</summary>
public static class Scaling
{
    /// <summary>
    /// A shape of a part of the cells along X, Y and Z, one at least. A cell is worked where at least half of the cells that it stands for are, by the
    /// head that works more of them.
    /// </summary>
    /// <param name="shape">The shape.</param>
    /// <param name="percent">How much of each side, 1 to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">The percent are not 1 to 100.</exception>
    public static Shape Scaled(this Shape shape, int percent)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(percent, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(percent, 100);
        var (width, depth, layers) = (Side(shape.Width, percent), Side(shape.Depth, percent), Side(shape.Layers, percent));
        var scaled = new ShapeBuilder(width, depth, layers);
        for (var layer = 0; layer < layers; layer++)
            for (var y = 0; y < depth; y++)
                for (var x = 0; x < width; x++)
                    if (Most(shape, From(x, width, shape.Width), From(y, depth, shape.Depth), From(layer, layers, shape.Layers)) is { } head)
                        scaled.Work(new Cell(x, y), layer, head);
        return scaled.Build();
    }

    private static int Side(int cells, int percent) => Math.Max(1, (cells * percent + 50) / 100);

    // The cells that one of the smaller shape stands for, along one axis.
    private static (int First, int End) From(int at, int cells, int ofCells) => ((int)((long)at * ofCells / cells), (int)((long)(at + 1) * ofCells / cells));

    private static Head? Most(Shape shape, (int First, int End) x, (int First, int End) y, (int First, int End) z)
    {
        int a = 0, b = 0;
        for (var layer = z.First; layer < z.End; layer++)
        {
            var cells = shape.LayerCells(layer);
            for (var row = y.First; row < y.End && !cells.IsEmpty; row++)
            {
                var part = cells.Slice(row * shape.Width + x.First, x.End - x.First);
                (a, b) = (a + part.Count(Shape.Mark(Head.A)), b + part.Count(Shape.Mark(Head.B)));
            }
        }
        var cellCount = (x.End - x.First) * (y.End - y.First) * (z.End - z.First);
        return 2 * (a + b) < cellCount ? null : a >= b ? Head.A : Head.B;
    }
}
