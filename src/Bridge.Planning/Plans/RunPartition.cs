namespace Bridge.Planning;

/// <summary>Cuts a mask into its maximal runs along X, each run joined with an equal one right below it.</summary>
internal static class RunPartition
{
    /// <summary>Rectangles that hold every cell once: never more than there are runs.</summary>
    public static List<Block> Cut(Mask mask)
    {
        List<Block> blocks = [];
        var open = new int[mask.Width]; // 1 + the block that reached the row below, by its first x
        var next = new int[mask.Width];
        for (var y = 0; y < mask.Depth; y++)
        {
            Array.Clear(next);
            foreach (var (first, length) in Runs(mask, y))
            {
                var below = open[first] - 1;
                if (below >= 0 && blocks[below].CellsX == length)
                {
                    blocks[below] = blocks[below] with { CellsY = blocks[below].CellsY + 1 };
                    next[first] = below + 1;
                }
                else
                {
                    blocks.Add(new Block(first, y, length, 1));
                    next[first] = blocks.Count;
                }
            }
            (open, next) = (next, open);
        }
        return blocks;
    }

    private static IEnumerable<(int First, int Length)> Runs(Mask mask, int y)
    {
        for (var x = 0; x < mask.Width; x++)
        {
            if (!mask[x, y])
                continue;
            var first = x;
            while (x < mask.Width && mask[x, y])
                x++;
            yield return (first, x - first);
        }
    }
}
