using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// Whether the head, on its way to its zero and home, comes down where something was built. It finds Z over the corner at the endstops of X and Y
/// and then crosses to cell (0, 0) on the lowest layer, or, where the endstop of Z is at the top, comes down over (0, 0) alone (MOTION.md, 9 and 10).
/// </summary>
public static class DescentCheck
{
    /// <summary>Cells beside its way that must be free too: a head is wider than its tip.</summary>
    public const int Margin = 1;

    /// <summary>The first cell in its way; null where there is none, or where the machine draws and nothing stands up.</summary>
    public static (Cell Cell, int Layer)? FirstInTheWay(Machine machine, WorkedCells worked)
    {
        if (machine.Z is not { } z || machine.MayOverprint)
            return null;
        var home = new Cell(0, 0);
        var corner = z.Endstop == AxisEnd.Max ? home : new Cell(CellAtEndstop(machine.X), CellAtEndstop(machine.Y));
        foreach (var layer in worked.Layers)
            foreach (var cell in Crossed(corner, home, machine.Grid))
                if (worked.Has(cell, layer, Head.A) || worked.Has(cell, layer, Head.B))
                    return (cell, layer);
        return null;
    }

    /// <summary>The same before a run is gone on with from where a device has to find its zero again; what is in doubt may have been built.</summary>
    public static (Cell Cell, int Layer)? FirstInTheWay(StoppedRun stopped, ResumePoint.AfterRestart point) =>
        FirstInTheWay(stopped.Job.Machine, stopped.History.WorkedUpTo(point.Doubt is { } doubt ? stopped.History.Furthest(doubt) : point.Known));

    private static int CellAtEndstop(Axis axis) => axis.Endstop == AxisEnd.Min ? 0 : axis.Cells - 1;

    private static IEnumerable<Cell> Crossed(Cell corner, Cell home, Grid grid)
    {
        var way = new List<Cell> { corner };
        foreach (var cell in CellPath.Line(corner, home))
            way.Add(cell);
        return way.SelectMany(Around).Distinct().Where(grid.Holds);
    }

    private static IEnumerable<Cell> Around(Cell cell) =>
        from dy in Enumerable.Range(-Margin, 2 * Margin + 1)
        from dx in Enumerable.Range(-Margin, 2 * Margin + 1)
        select new Cell(cell.X + dx, cell.Y + dy);
}
