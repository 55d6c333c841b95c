using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>
/// A layer in letters: the far edge first, A and B for the heads, * for both, . for nothing. Where it is too large, a letter stands for a square of cells.
/// </summary>
public static class CellText
{
    /// <summary>The lines of a layer.</summary>
    /// <param name="worked">What was worked.</param>
    /// <param name="layer">The layer.</param>
    /// <param name="mostColumns">The most letters of a line, above 0.</param>
    /// <param name="mostRows">The most lines, above 0.</param>
    public static IReadOnlyList<string> Of(WorkedCells worked, int layer, int mostColumns, int mostRows)
    {
        var grid = worked.Grid;
        var side = Math.Max(1, Math.Max((grid.X + mostColumns - 1) / mostColumns, (grid.Y + mostRows - 1) / mostRows));
        var lines = new List<string>();
        for (var top = (grid.Y - 1) / side * side; top >= 0; top -= side)
            lines.Add(string.Concat(Enumerable.Range(0, (grid.X + side - 1) / side).Select(column => Letter(worked, layer, column * side, top, side))));
        return lines;
    }

    private static char Letter(WorkedCells worked, int layer, int left, int bottom, int side)
    {
        var (a, b) = (false, false);
        for (var y = bottom; y < Math.Min(bottom + side, worked.Grid.Y); y++)
            for (var x = left; x < Math.Min(left + side, worked.Grid.X); x++)
                (a, b) = (a || worked.Has(new Cell(x, y), layer, Head.A), b || worked.Has(new Cell(x, y), layer, Head.B));
        return (a, b) switch { (true, true) => '*', (true, false) => 'A', (false, true) => 'B', _ => '.' };
    }
}
