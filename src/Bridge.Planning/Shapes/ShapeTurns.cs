using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>The same shape laid differently on the grid.</summary>
public static class ShapeTurns
{
    /// <summary>Turned a quarter counter-clockwise seen from above: (x, y) comes to lie at (depth - 1 - y, x).</summary>
    public static Shape Turned(this Shape shape) =>
        Laid(shape, shape.Depth, shape.Width, (x, y) => new Cell(shape.Depth - 1 - y, x), head => head);

    /// <summary>Mirrored along X: (x, y) comes to lie at (width - 1 - x, y).</summary>
    public static Shape Mirrored(this Shape shape) =>
        Laid(shape, shape.Width, shape.Depth, (x, y) => new Cell(shape.Width - 1 - x, y), head => head);

    /// <summary>Worked by one head alone.</summary>
    public static Shape WorkedBy(this Shape shape, Head head) =>
        Laid(shape, shape.Width, shape.Depth, (x, y) => new Cell(x, y), _ => head);

    private static Shape Laid(Shape shape, int width, int depth, Func<int, int, Cell> place, Func<Head, Head> worker)
    {
        var laid = new ShapeBuilder(width, depth, shape.Layers);
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            var cells = shape.LayerCells(layer);
            for (var i = 0; i < cells.Length; i++)
                if (Shape.HeadOf(cells[i]) is { } head)
                    laid.Work(place(i % shape.Width, i / shape.Width), layer, worker(head));
        }
        return laid.Build();
    }
}
