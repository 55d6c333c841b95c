using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Shapes made from another one.</summary>
public static class ShapeVariants
{
    /// <summary>Turned a quarter counter-clockwise seen from above: (x, y) comes to lie at (depth - 1 - y, x).</summary>
    public static Shape Turned(this Shape shape) =>
        Made(shape, shape.Depth, shape.Width, (cell, _, head) => (new Cell(shape.Depth - 1 - cell.Y, cell.X), head));

    /// <summary>Moved by some cells along X and Y, 0 and up.</summary>
    public static Shape Moved(this Shape shape, int x, int y) =>
        Made(shape, x + shape.Width, y + shape.Depth, (cell, _, head) => (new Cell(x + cell.X, y + cell.Y), head));

    /// <summary>Mirrored along X: (x, y) comes to lie at (width - 1 - x, y).</summary>
    public static Shape Mirrored(this Shape shape) =>
        Made(shape, shape.Width, shape.Depth, (cell, _, head) => (cell with { X = shape.Width - 1 - cell.X }, head));

    /// <summary>Worked by one head alone.</summary>
    public static Shape WorkedBy(this Shape shape, Head only) =>
        Made(shape, shape.Width, shape.Depth, (cell, _, _) => (cell, only));

    /// <summary>Without the cells that have no side in common with a cell of their head on their layer.</summary>
    public static Shape WithoutLoneCells(this Shape shape) =>
        Made(shape, shape.Width, shape.Depth, (cell, layer, head) => HasNeighbour(shape, cell, layer, head) ? (cell, head) : null);

    private static bool HasNeighbour(Shape shape, Cell cell, int layer, Head head) =>
        shape[cell.X - 1, cell.Y, layer] == head || shape[cell.X + 1, cell.Y, layer] == head
        || shape[cell.X, cell.Y - 1, layer] == head || shape[cell.X, cell.Y + 1, layer] == head;

    private static Shape Made(Shape shape, int width, int depth, Func<Cell, int, Head, (Cell Cell, Head Head)?> change)
    {
        var made = new ShapeBuilder(width, depth, shape.Layers);
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            var cells = shape.LayerCells(layer);
            for (var i = 0; i < cells.Length; i++)
                if (Shape.HeadOf(cells[i]) is { } head && change(new Cell(i % shape.Width, i / shape.Width), layer, head) is { } changed)
                    made.Work(changed.Cell, layer, changed.Head);
        }
        return made.Build();
    }
}
