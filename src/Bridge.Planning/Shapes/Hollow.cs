using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Solid shapes made hollow: walls stay, and over layers a roof; below, the hollow is open to the table, so that support can be taken out.
/// Corners count as near: what stays is as thick along the diagonals of the grid too.
/// </summary>
public static class Hollow
{
    /// <summary>The shape without the cells that lie deeper than the walls.</summary>
    /// <param name="shape">The solid shape.</param>
    /// <param name="wall">The thickness of walls and roof in cells, 1 and up.</param>
    public static Shape Of(Shape shape, int wall)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(wall, 1);
        var roof = shape.Layers == 1 ? 0 : wall;
        var hollow = new ShapeBuilder(shape.Width, shape.Depth, shape.Layers);
        var depths = new Queue<CellSet>(); // of the present layer and those that must be solid above it
        for (var layer = 0; layer <= roof; layer++)
            depths.Enqueue(CellSet.Of(shape, layer).Shrunk(wall));
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            var cells = shape.LayerCells(layer);
            for (var i = 0; i < cells.Length; i++)
                if (Shape.HeadOf(cells[i]) is { } head && new Cell(i % shape.Width, i / shape.Width) is var cell && !depths.All(deep => deep[cell.X, cell.Y]))
                    hollow.Work(cell, layer, head);
            depths.Dequeue();
            depths.Enqueue(CellSet.Of(shape, layer + 1 + roof).Shrunk(wall));
        }
        return hollow.Build();
    }

    /// <summary>The shape without the cells that lie deeper than walls of some cells or mm; a caution where there are none.</summary>
    /// <exception cref="RefusedException">The walls are less than half a cell, or more than any shape.</exception>
    internal static Shape Of(Shape shape, Length wall, string name, ShapeOptions options)
    {
        var cells = wall.ToCells(options.Pitch.X);
        if (!(cells >= 0.5 && cells <= Shape.MaxSide))
            throw new RefusedException($"{name}, the hollow", $"walls of {wall}", $"1 to {Shape.MaxSide} cells", "Give thicker or thinner walls.");
        var hollow = Of(shape, (int)Math.Round(cells, MidpointRounding.AwayFromZero));
        if (hollow.Count(Head.A) + hollow.Count(Head.B) == shape.Count(Head.A) + shape.Count(Head.B))
            options.Caution?.Invoke($"{name}: nothing is thicker than the walls; it stays as it is.");
        return hollow;
    }
}
