using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A shape that is made of cells already, turned by quarters and moved to its place.</summary>
internal static class PlacedCells
{
    /// <summary>Whether the options ask for nothing but the shape as it is.</summary>
    public static bool IsAsItIs(ShapeOptions options) => options.Turns.Count == 0 && options.Place == GridPlace.Corner;

    /// <summary>Turns and moves it as the options say.</summary>
    /// <exception cref="RefusedException">A turn is not by quarters about Z, or it comes to lie off the largest grid allowed.</exception>
    public static Shape Of(Shape shape, string name, ShapeOptions options)
    {
        if (IsAsItIs(options))
            return shape;
        for (var quarters = Quarters(options.Turns, name); quarters > 0; quarters--)
            shape = shape.Turned();
        var (x, y) = options.Place.InCells(shape.Width, shape.Depth, options);
        var (left, bottom) = (Math.Round(x), Math.Round(y));
        var (limit, width, depth) = (options.Limit, left + shape.Width, bottom + shape.Depth);
        if (width > limit.X || depth > limit.Y || shape.Layers > limit.Layers)
            throw new RefusedException(name, $"a shape that reaches to {width} x {depth} x {shape.Layers} cells", $"up to {limit} cells",
                "Make the shape smaller, give another place, or take a larger machine.");
        return shape.Moved((int)left, (int)bottom);
    }

    private static int Quarters(IReadOnlyList<Turn> turns, string name)
    {
        if (turns.All(turn => turn.About == TurnAxis.Z && turn.Quarters is not null))
            return turns.Sum(turn => turn.Quarters!.Value) % 4;
        throw new RefusedException(name, "cells, and a turn that is not by quarters about Z", "turns of 90, 180 and 270 degrees for cells and pictures",
            "Give another turn, or a drawing or a mesh, which any turn is good for.");
    }
}
