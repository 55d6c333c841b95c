namespace Bridge.Planning;

/// <summary>One of the eight ways to look at a grid of cells.</summary>
[Flags]
internal enum View : byte
{
    /// <summary>As it is.</summary>
    Plain = 0,

    /// <summary>Columns as rows.</summary>
    Transposed = 1,

    /// <summary>From the right, after any transposing.</summary>
    XFalls = 2,

    /// <summary>From the far edge, after any transposing.</summary>
    YFalls = 4,
}

/// <summary>Blocks seen another way round.</summary>
internal static class Views
{
    /// <summary>How many views there are.</summary>
    public const int Count = 8;

    /// <summary>A block of a grid of a width and depth as a view shows it.</summary>
    public static Block Seen(this Block block, View view, int width, int depth)
    {
        if (view.HasFlag(View.Transposed))
            (block, width, depth) = (new Block(block.Y, block.X, block.CellsY, block.CellsX, block.Slant), depth, width);
        if (view.HasFlag(View.XFalls))
            block = Mirrored(block) with { X = width - block.X - block.CellsX };
        if (view.HasFlag(View.YFalls))
            block = Mirrored(block) with { Y = depth - block.Y - block.CellsY };
        return block;
    }

    /// <summary>A block that a view of a grid of a width and depth shows, as it is on the grid.</summary>
    public static Block Unseen(this Block block, View view, int width, int depth)
    {
        var isTransposed = view.HasFlag(View.Transposed);
        var (seenWidth, seenDepth) = isTransposed ? (depth, width) : (width, depth);
        block = block.Seen(view & ~View.Transposed, seenWidth, seenDepth);
        return isTransposed ? block.Seen(View.Transposed, seenWidth, seenDepth) : block;
    }

    private static Block Mirrored(Block block) => block with
    {
        Slant = block.Slant switch { Slant.Rises => Slant.Falls, Slant.Falls => Slant.Rises, _ => Slant.None },
    };
}
