namespace Bridge.Planning;

/// <summary>What one head works on a layer, cut into blocks: few blocks are few records.</summary>
/// <param name="Blocks">The blocks, where they lie on the layer.</param>
/// <param name="Rectangles">The fewest rectangles that hold every cell once.</param>
/// <param name="AtLeast">No cutting has fewer blocks.</param>
internal sealed record Cutting(IReadOnlyList<Block> Blocks, int Rectangles, int AtLeast)
{
    private const long Steps = 20_000_000;

    /// <summary>Cuts a mask; where a cell may be worked twice, blocks may overlap.</summary>
    public static Cutting Of(Mask mask, bool mayOverlap)
    {
        var rectangles = RectanglePartition.Cut(mask);
        var effort = new Effort(Steps);
        List<Block> blocks = [];
        var atLeast = 0;
        foreach (var island in TouchingIslands.Of(mask, rectangles))
        {
            var (found, least) = OfIsland(island, mayOverlap, effort);
            blocks.AddRange(found);
            atLeast += least;
        }
        return new Cutting(blocks.ConvertAll(block => block.MovedBy(mask.Origin)), rectangles.Count, atLeast);
    }

    private static (List<Block> Blocks, int AtLeast) OfIsland(List<Block> rectangles, bool mayOverlap, Effort effort)
    {
        if (rectangles.Count == 1)
            return (rectangles, 1);
        var mask = Mask.Of(rectangles);
        var (blocks, atLeast) = BlockMinimum.Find(mask, rectangles.ConvertAll(block => block.MovedBack(mask.Origin)), mayOverlap, 1, effort);
        return (blocks.ConvertAll(block => block.MovedBy(mask.Origin)), atLeast);
    }
}
