namespace Bridge.Jobs;

/// <summary>
/// What would fall: a cell above the lowest layer is held where a cell on the layer below is worked within the machine's overhang along X and Y.
/// Pens draw on one sheet, where nothing falls.
/// </summary>
public static class Overhang
{
    /// <summary>The cells of a layer that would fall, by y, then x.</summary>
    /// <param name="present">The cells worked on it.</param>
    /// <param name="below">The cells worked on the layer below, of the same grid.</param>
    /// <param name="within">How far a cell may stick out, 0 or 1.</param>
    public static IEnumerable<Cell> Falling(LayerCells present, LayerCells below, int within) =>
        present.Cells().Where(cell => !below.HasNear(cell, within));

    /// <summary>What would fall of a layer above the lowest, in words; null where nothing does.</summary>
    /// <param name="machine">The machine.</param>
    /// <param name="layer">The layer's number, 1 and up.</param>
    /// <param name="present">The cells worked on it.</param>
    /// <param name="below">The cells worked on the layer below, of the same grid.</param>
    public static Refusal? Refusal(Machine machine, int layer, LayerCells present, LayerCells below)
    {
        if (machine.MayOverprint)
            return null;
        var (count, cells) = (0, new List<(int, Cell Cell)>());
        foreach (var cell in Falling(present, below, machine.OverhangCells))
            if (count++ < Jobs.Refusal.MostCells)
                cells.Add((layer, cell));
        return count == 0 ? null : new Refusal($"layer {layer}",
            count == 1 ? $"cell {cells[0].Cell} with nothing below it" : $"{count} cells with nothing below them, the first {cells[0].Cell}",
            $"a cell below within {machine.OverhangCells}", "They may fall: put B cells under them, or let the plan add support.") { Cells = cells };
    }
}
