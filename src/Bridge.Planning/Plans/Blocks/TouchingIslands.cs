namespace Bridge.Planning;

/// <summary>Blocks that hang together by sides or corners: no block reaches from one such island to another.</summary>
internal static class TouchingIslands
{
    /// <summary>The blocks of a mask, island by island.</summary>
    public static IEnumerable<List<Block>> Of(Mask mask, List<Block> blocks)
    {
        var islands = new int[mask.Cells.Length]; // 1 + the island of a place
        var count = 0;
        var grouped = new List<List<Block>>();
        foreach (var block in blocks)
        {
            var place = block.Cells().First() is var cell ? cell.Y * mask.Width + cell.X : 0;
            if (islands[place] == 0)
            {
                Flood(mask, place, ++count, islands);
                grouped.Add([]);
            }
            grouped[islands[place] - 1].Add(block);
        }
        return grouped;
    }

    private static void Flood(Mask mask, int start, int island, int[] islands)
    {
        var waiting = new Stack<int>([start]);
        islands[start] = island;
        while (waiting.TryPop(out var place))
        {
            var (x, y) = (place % mask.Width, place / mask.Width);
            for (var nearY = Math.Max(0, y - 1); nearY <= Math.Min(mask.Depth - 1, y + 1); nearY++)
                for (var nearX = Math.Max(0, x - 1); nearX <= Math.Min(mask.Width - 1, x + 1); nearX++)
                {
                    var near = nearY * mask.Width + nearX;
                    if (!mask.Cells[near] || islands[near] != 0)
                        continue;
                    islands[near] = island;
                    waiting.Push(near);
                }
        }
    }
}
