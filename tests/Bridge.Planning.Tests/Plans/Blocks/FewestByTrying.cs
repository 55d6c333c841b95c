namespace Bridge.Planning.Tests;

// The fewest blocks by trying every block on the first cell that is left, each set of cells left once. For at most 20 cells.
internal static class FewestByTrying
{
    public static int Of(Mask mask, bool mayOverlap)
    {
        var cells = Masks.CellsOf(mask).ToList();
        var numbers = cells.Index().ToDictionary(cell => cell.Item, cell => cell.Index);
        var blocks = BlocksOf(cells, [.. cells]).Select(block => block.Aggregate(0, (bits, cell) => bits | 1 << numbers[cell])).Distinct().ToList();
        var known = new Dictionary<int, int> { [0] = 0 };
        return Fewest((1 << cells.Count) - 1);

        int Fewest(int left)
        {
            if (known.TryGetValue(left, out var fewest))
                return fewest;
            var first = left & -left;
            return known[left] = 1 + blocks.Where(block => (block & first) != 0 && (mayOverlap || (block & ~left) == 0)).Min(block => Fewest(left & ~block));
        }
    }

    private static IEnumerable<List<(int X, int Y)>> BlocksOf(List<(int X, int Y)> cells, HashSet<(int X, int Y)> worked) =>
        from cell in cells
        from other in cells
        where other.X >= cell.X
        from block in new[] { Rectangle(cell, other), Diagonal(cell, other) }
        where block.Count > 0 && block.TrueForAll(worked.Contains)
        select block;

    private static List<(int X, int Y)> Rectangle((int X, int Y) low, (int X, int Y) high) =>
        [.. from y in Enumerable.Range(low.Y, Math.Max(0, high.Y - low.Y + 1)) from x in Enumerable.Range(low.X, high.X - low.X + 1) select (x, y)];

    private static List<(int X, int Y)> Diagonal((int X, int Y) left, (int X, int Y) right)
    {
        var (cells, way) = (right.X - left.X + 1, Math.Sign(right.Y - left.Y));
        return Math.Abs(right.Y - left.Y) != cells - 1 ? [] : [.. Enumerable.Range(0, cells).Select(i => (left.X + i, left.Y + i * way))];
    }
}
