namespace Bridge.Planning;

/// <summary>Cuts a mask by taking, again and again, the best rectangle whose lower left corner is the first cell left.</summary>
internal static class CornerPartition
{
    /// <summary>Takes the rectangle of the most cells.</summary>
    public static List<Block> CutLargest(Mask mask) => Cut(mask, wholeRun: false);

    /// <summary>Takes the whole run of the first row, as high as it goes.</summary>
    public static List<Block> CutWidest(Mask mask) => Cut(mask, wholeRun: true);

    private static List<Block> Cut(Mask mask, bool wholeRun)
    {
        List<Block> blocks = [];
        var left = mask.ToArray();
        for (var start = left.AsSpan().IndexOf(true); start >= 0;)
        {
            var block = BestFrom(left, mask.Width, start, wholeRun);
            blocks.Add(block);
            for (var y = block.Y; y < block.Y + block.CellsY; y++)
                left.AsSpan(y * mask.Width + block.X, block.CellsX).Clear();
            var step = left.AsSpan(start).IndexOf(true);
            start = step < 0 ? -1 : start + step;
        }
        return blocks;
    }

    private static Block BestFrom(bool[] left, int width, int start, bool wholeRun)
    {
        var (x, y) = (start % width, start / width);
        var best = new Block(x, y, 0, 0);
        var run = width - x;
        for (var height = 1; start + (height - 1) * width < left.Length; height++)
        {
            var gap = left.AsSpan(start + (height - 1) * width, run).IndexOf(false);
            if (gap == 0 || (gap > 0 && wholeRun && height > 1))
                break;
            run = gap < 0 ? run : gap;
            if (run * height > best.CellsX * best.CellsY)
                best = new Block(x, y, run, height);
        }
        return best;
    }
}
