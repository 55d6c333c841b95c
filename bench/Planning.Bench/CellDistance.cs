namespace Planning.Bench;

/// <summary>The Hausdorff distance of two sets of cells: how far at most a cell of either is from the nearest of the other, centre to centre.</summary>
internal static class CellDistance
{
    /// <summary>In cells; infinite where just one set is empty.</summary>
    public static double Between(bool[,] one, bool[,] other) => Math.Sqrt(Math.Max(OneWay(one, other), OneWay(other, one)));

    private static double OneWay(bool[,] from, bool[,] to)
    {
        var most = 0.0;
        for (var x = 0; x < from.GetLength(0); x++)
            for (var y = 0; y < from.GetLength(1); y++)
                if (from[x, y])
                    most = Math.Max(most, SquareToNearest(to, x, y));
        return most;
    }

    // Rings of growing size, until no further one can hold a nearer cell.
    private static double SquareToNearest(bool[,] cells, int x, int y)
    {
        var (width, depth, best) = (cells.GetLength(0), cells.GetLength(1), double.PositiveInfinity);
        for (var ring = 0; ring < Math.Max(width, depth) && (double)ring * ring < best; ring++)
            for (var dx = -ring; dx <= ring; dx++)
                for (var dy = -ring; dy <= ring; dy += Math.Abs(dx) == ring ? 1 : Math.Max(1, 2 * ring))
                    if (x + dx >= 0 && x + dx < width && y + dy >= 0 && y + dy < depth && cells[x + dx, y + dy])
                        best = Math.Min(best, dx * dx + dy * dy);
        return best;
    }
}
