namespace Bridge.Planning;

/// <summary>What one head works on a layer, cut into blocks: few blocks are few records.</summary>
/// <param name="Blocks">The blocks, where they lie on the layer.</param>
/// <param name="Rectangles">The fewest rectangles that hold every cell once.</param>
/// <param name="AtLeast">No cutting has fewer blocks.</param>
internal sealed record Cutting(IReadOnlyList<Block> Blocks, int Rectangles, int AtLeast)
{
    /// <summary>Cuts a mask; where a cell may be worked twice, blocks may overlap.</summary>
    public static Cutting Of(Mask mask, bool mayOverlap, long steps, CancellationToken ended = default)
    {
        var rectangles = RectanglePartition.Cut(mask);
        List<Block> blocks = [];
        var atLeast = 0;
        foreach (var island in TouchingIslands.Of(mask, rectangles))
        {
            var cells = island.Sum(block => (long)block.CellsX * block.CellsY);
            var cutting = new IslandCutting(island, mayOverlap, (long)((double)steps * cells / mask.CellCount), ended);
            blocks.AddRange(cutting.Blocks);
            atLeast += cutting.AtLeast;
        }
        return new Cutting(blocks.ConvertAll(block => block.MovedBy(mask.Origin)), rectangles.Count, atLeast);
    }
}
