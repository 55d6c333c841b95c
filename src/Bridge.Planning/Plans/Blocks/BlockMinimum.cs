namespace Bridge.Planning;

/// <summary>The fewest blocks for some cells, proved where the effort is enough.</summary>
internal static class BlockMinimum
{
    /// <summary>The most cells that are looked at as a whole.</summary>
    public const int MostCells = 256;

    private const int MostPlaces = 4 * MostCells;
    private const int MostBlocks = 40_000;

    /// <summary>A cutting into fewer blocks than are known, or null; and a number that no cutting can go below.</summary>
    /// <param name="mask">The cells that may be worked.</param>
    /// <param name="isDue">Which places of the mask are to be covered; all its cells where null.</param>
    /// <param name="known">Blocks of a cutting that is known.</param>
    /// <param name="mayOverlap">Whether a cell may be worked twice.</param>
    /// <param name="effort">How much work may be done.</param>
    public static (List<Block>? Blocks, int AtLeast) Find(Mask mask, bool[]? isDue, int known, bool mayOverlap, Effort effort)
    {
        if (mask.Cells.Length > MostPlaces)
            return (null, 1);
        var candidates = new BlockCandidates(mask, isDue, mayOverlap, MostBlocks);
        if (candidates.CellCount > MostCells || candidates.Blocks.Count > MostBlocks)
            return (null, 1);
        var prices = BlockPrices.Of(candidates, effort);
        var atLeast = prices.AtLeast;
        for (var blocks = atLeast; blocks < known; blocks++)
        {
            if (BlockSearch.Find(candidates, prices, blocks, effort) is { } found)
                return (found, atLeast);
            if (!effort.IsLeft)
                break;
            atLeast = blocks + 1;
        }
        return (null, Math.Min(atLeast, known));
    }
}
