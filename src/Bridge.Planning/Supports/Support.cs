using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Support by head b under cells that would fall: those above the lowest layer without a worked cell below them within the
/// machine's overhang along X and Y. Pens draw on one sheet, where nothing falls.
/// </summary>
public static class Support
{
    private const double Quick = 0.02; // effort to compare ways by

    /// <summary>The first layer on which cells would fall, in words; null where none does.</summary>
    public static Refusal? Falling(Shape shape, Machine machine)
    {
        for (var layer = 1; layer < shape.Layers && !machine.MayOverprint; layer++)
        {
            var falling = CellSet.Of(shape, layer).Without(CellSet.Of(shape, layer - 1).Grown(machine.OverhangCells));
            if (falling.Count > 0)
                return new Refusal($"layer {layer}",
                    falling.Count == 1
                        ? $"cell {falling.First} with nothing below it"
                        : $"{falling.Count} cells with nothing below them, the first {falling.First}",
                    $"a cell below within {machine.OverhangCells}", "Put B cells under them, or let the plan add support.");
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
