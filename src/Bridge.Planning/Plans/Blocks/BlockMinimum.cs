namespace Bridge.Planning;

/// <summary>The fewest blocks of a small mask, proved where the effort is enough.</summary>
internal static class BlockMinimum
{
    /// <summary>The most cells of a mask that is looked at as a whole.</summary>
    public const int MostCells = 256;

    private const int MostPlaces = 4 * MostCells;
    private const int MostBlocks = 40_000;

    /// <summary>Blocks at most as many as are known already, and a number that no cutting can go below.</summary>
    /// <param name="mask">The cells to work.</param>
    /// <param name="known">A cutting of it.</param>
    /// <param name="mayOverlap">Whether a cell may be worked twice.</param>
    /// <param name="atLeast">A number that is known already to be no larger than any cutting's.</param>
    /// <param name="effort">How much work may be done.</param>
    public static (List<Block> Blocks, int AtLeast) Find(Mask mask, List<Block> known, bool mayOverlap, int atLeast, Effort effort)
    {
        if (known.Count <= atLeast || mask.Cells.Length > MostPlaces)
            return (known, atLeast);
        var candidates = new BlockCandidates(mask, mayOverlap, MostBlocks);
        if (candidates.CellCount > MostCells || candidates.Blocks.Count > MostBlocks)
            return (known, atLeast);
        var prices = BlockPrices.Of(candidates, effort);
        var isProved = true;
        for (var blocks = Math.Max(atLeast, prices.AtLeast); blocks < known.Count && effort.IsLeft; blocks++)
        {
            if (isProved)
                atLeast = blocks;
            if (BlockSearch.Find(candidates, prices, blocks, effort) is { } found)
                return (found, atLeast);
            isProved &= effort.IsLeft;
        }
        return (known, effort.IsLeft && isProved ? known.Count : Math.Max(atLeast, prices.AtLeast));
    }
}
