using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Support by head b under cells that would fall, as <see cref="Overhang"/> tells.</summary>
public static class Support
{
    private const double Quick = 0.02; // effort to compare ways by

    /// <summary>The first layer on which cells would fall, in words; null where none does.</summary>
    public static Refusal? Falling(Shape shape, Machine machine)
    {
        if (machine.MayOverprint)
            return null;
        var below = CellSet.Of(shape, 0).ToLayerCells();
        for (var layer = 1; layer < shape.Layers; layer++)
        {
            var present = CellSet.Of(shape, layer).ToLayerCells();
            if (Overhang.Refusal(machine, layer, present, below) is { } refusal)
                return refusal;
            below = present;
        }
        return null;
    }

    /// <summary>
    /// The shape with the support it needs, where the machine has a head b; the shape itself where it needs none. The support
    /// goes down to the lowest layer or to cells of the shape, holds no cell of the shape, and can be reached from outside.
    /// Of two ways to put it the one is taken that fewer records work, then that with fewer cells.
    /// </summary>
    /// <exception cref="RefusedException">Cells in a closed hollow need support, which could never be taken out.</exception>
    public static Shape Under(Shape shape, Machine machine)
    {
        if (machine.B is null || Falling(shape, machine) is null)
            return shape;
        var air = new OpenAir(shape);
        var straight = new SupportColumns(shape, air, machine.OverhangCells, narrows: false).Build();
        if (machine.OverhangCells == 0 || MachineFit.Refusal(straight, machine) is not null)
            return straight;
        var narrowing = new SupportColumns(shape, air, machine.OverhangCells, narrows: true).Build();
        return new[] { straight, narrowing }.MinBy(way => (Planner.Plan(way, machine, Quick).Records.Count, way.Count(Head.B)))!;
    }
}
