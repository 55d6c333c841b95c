using CsCheck;

namespace Bridge.Planning.Tests;

public class FrontierSearchTests
{
    [Fact]
    public void A_window_over_the_whole_finds_the_fewest_blocks() =>
        Masks.Noise(4, 5).Sample(mask =>
        {
            var grid = new LabelGrid(mask.Width, mask.Depth, RectanglePartition.Cut(mask));
            var (_, isExact) = FrontierSearch.Improve(grid, Whole(mask), 100_000, null, new Effort(long.MaxValue));
            Masks.AssertPartition(mask, grid.ToBlocks());
            Assert.True(isExact || mask.CellCount == mask.Cells.Length);
            Assert.Equal(FewestByTrying.Of(mask, mayOverlap: false), grid.ToBlocks().Count);
        }, seed: "0000frontier", iter: 300);

    [Fact]
    public void A_window_within_leaves_a_cutting_and_saves_what_it_says() =>
        Gen.Select(Masks.Noise(20, 20), Gen.Int[0, 19], Gen.Int[0, 19], Gen.Int[1, 20], Gen.Int[1, 16], Gen.Int[0, 7]).Sample((
            mask, left, bottom, width, rows, view) =>
        {
            var cutting = RectanglePartition.Cut(mask);
            for (var times = 0; times < 3; times++)
            {
                var (seenWidth, seenDepth) = ((View)view).HasFlag(View.Transposed) ? (mask.Depth, mask.Width) : (mask.Width, mask.Depth);
                var grid = new LabelGrid(seenWidth, seenDepth, cutting.Select(block => block.Seen((View)view, mask.Width, mask.Depth)));
                var window = new Window(left % seenWidth, bottom % seenDepth,
                    Math.Min(seenWidth, left % seenWidth + width), Math.Min(seenDepth, bottom % seenDepth + rows));
                var (saved, _) = FrontierSearch.Improve(grid, window, 30, new Random(times), new Effort(long.MaxValue));
                var better = grid.ToBlocks().ConvertAll(block => block.Unseen((View)view, mask.Width, mask.Depth));
                Masks.AssertPartition(mask, better);
                Assert.InRange(better.Count, 0, cutting.Count - saved); // neighbours labelled alike may join besides
                (cutting, view) = (better, (view + 3) % Views.Count);
            }
        }, seed: "0000frontie2", iter: 300);

    [Fact]
    public void Sixteen_rows_with_rows_around_them_fit_the_frontier()
    {
        var mask = Masks.Noise(30, 40, 60, seed: 3);
        var grid = new LabelGrid(30, 40, RectanglePartition.Cut(mask));
        FrontierSearch.Improve(grid, new Window(0, 10, 30, 26), 100, new Random(1), new Effort(long.MaxValue));
        Masks.AssertPartition(mask, grid.ToBlocks());
        Assert.InRange(grid.ToBlocks().Count, 0, RectanglePartition.Fewest(mask));
    }

    [Fact]
    public void Labels_mean_the_blocks_they_were_made_of() =>
        Masks.Noise(20, 20).Sample(mask =>
        {
            var blocks = RectanglePartition.Cut(mask);
            Assert.Equal(blocks.OrderBy(block => (block.Y, block.X)), new LabelGrid(mask.Width, mask.Depth, blocks).ToBlocks());
        }, seed: "0000labels01", iter: 100);

    [Fact]
    public void A_block_seen_another_way_round_is_seen_back() =>
        Gen.Select(Gen.Int[0, 7], Gen.Int[0, 5], Gen.Int[0, 5], Gen.Int[1, 4], Gen.Int[0, 2]).Sample((view, x, y, cells, slant) =>
        {
            var block = new Block(x, y, cells, slant == 0 || cells == 1 ? 2 : cells, cells == 1 ? Slant.None : (Slant)slant);
            var seen = block.Seen((View)view, 10, 12);
            Assert.Equal(block, seen.Unseen((View)view, 10, 12));
            Assert.Equal(Masks.CellsOf(block).Count(), Masks.CellsOf(seen).Count());
        }, seed: "0000views001", iter: 200);

    private static Window Whole(Mask mask) => new(0, 0, mask.Width, mask.Depth);
}
