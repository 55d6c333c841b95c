namespace Bridge.Planning;

/// <summary>Cuts what one head works on a layer into blocks that hold every cell once: few blocks are few records.</summary>
internal static class Partition
{
    private static readonly (View View, Func<Mask, List<Block>> Cut)[] Ways =
    [
        (View.Plain, RunPartition.Cut),
        (View.Transposed, RunPartition.Cut),
        .. Enumerable.Range(0, 8).Select(view => ((View)view, (Func<Mask, List<Block>>)CornerPartition.CutLargest)),
        .. Enumerable.Range(0, 8).Select(view => ((View)view, (Func<Mask, List<Block>>)CornerPartition.CutWidest)),
    ];

    /// <summary>Blocks on the layer: for each patch of joined cells the way of cutting that needs the fewest, then lone cells joined along diagonals.</summary>
    public static List<Block> Best(Mask mask)
    {
        var islands = new Islands(mask);
        var best = new List<Block>?[islands.Count];
        foreach (var (view, cut) in Ways)
        {
            var found = cut(mask.Seen(view)).Select(block => mask.Original(view, block));
            foreach (var island in found.GroupBy(islands.Of))
            {
                var blocks = island.ToList();
                if (best[island.Key] is not { } fewest || blocks.Count < fewest.Count)
                    best[island.Key] = blocks;
            }
        }
        var all = Diagonals.Join([.. best.SelectMany(blocks => blocks!)]);
        return all.ConvertAll(block => block with { X = block.X + mask.Origin.X, Y = block.Y + mask.Origin.Y });
    }
}
