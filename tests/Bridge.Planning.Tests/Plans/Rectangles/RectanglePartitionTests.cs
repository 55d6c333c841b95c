using System.Diagnostics;
using CsCheck;

namespace Bridge.Planning.Tests;

public class RectanglePartitionTests
{
    // Free polyominoes by their fewest rectangles, found by trying all partitions; their totals are OEIS A000105 (from memory).
    public static TheoryData<int, string> Histograms => new()
    {
        { 4, "1:2 2:3" },
        { 5, "1:1 2:6 3:5" },
        { 6, "1:2 2:12 3:21" },
        { 7, "1:1 2:18 3:72 4:17" },
        { 8, "1:2 2:31 3:189 4:147" },
        { 9, "1:2 2:37 3:425 4:717 5:104" },
    };

    [Theory]
    [MemberData(nameof(Histograms))]
    public void Every_small_polyomino_is_cut_into_the_fewest_rectangles(int cells, string histogram)
    {
        var masks = Polyominoes.OfSize(cells).ConvertAll(Masks.Of);
        Assert.All(masks, mask =>
        {
            var blocks = RectanglePartition.Cut(mask);
            Masks.AssertPartition(mask, blocks);
            Assert.Equal(RectanglePartition.Fewest(mask), blocks.Count);
        });
        Assert.Equal(histogram, string.Join(' ',
            masks.CountBy(RectanglePartition.Fewest).OrderBy(found => found.Key).Select(found => $"{found.Key}:{found.Value}")));
    }

    [Fact]
    public void The_theorem_gives_what_trying_every_partition_finds() =>
        Assert.All(Enumerable.Range(1, 7).SelectMany(Polyominoes.OfSize).Select(Masks.Of), mask =>
            Assert.Equal(FewestByTrying([.. Masks.CellsOf(mask)]), RectanglePartition.Fewest(mask)));

    [Fact]
    public void The_theorem_holds_where_islands_touch_by_corners_and_lie_in_holes() =>
        Masks.Noise(4, 4).Sample(mask => Assert.Equal(FewestByTrying([.. Masks.CellsOf(mask)]), RectanglePartition.Fewest(mask)),
            seed: "0000rects001", iter: 200);

    [Fact]
    public void Noise_is_cut_into_just_as_many_rectangles_as_the_theorem_says() =>
        Masks.Noise(40, 40).Sample(mask =>
        {
            var blocks = RectanglePartition.Cut(mask);
            Masks.AssertPartition(mask, blocks);
            Assert.Equal(RectanglePartition.Fewest(mask), blocks.Count);
        }, seed: "0000rects002", iter: 400);

    [Theory]
    [InlineData(".A.\nAAA\n.A.", 3)]
    [InlineData("A.A\nA.A\nAAA", 3)]
    [InlineData("A.A.A\nAAAAA", 4)]
    [InlineData("AAA\nA.A\nAAA", 4)]
    [InlineData("A.\n.A", 2)]
    [InlineData("AA.\nAAA\n.AA", 3)]
    [InlineData(".AA.\nAAAA\nAAAA\n.AA.", 3)]
    [InlineData("AAA\nA.A\nAA.", 4)] // the corner that is open by a corner alone closes no hole
    public void A_shape_takes_its_fewest_rectangles(string text, int fewest) => Assert.Equal(fewest, RectanglePartition.Cut(Masks.Text(text)).Count);

    [Fact]
    public void Wide_noise_and_a_wide_comb_are_cut_in_bounded_time()
    {
        var clock = Stopwatch.StartNew();
        var noise = Masks.Noise(256, 256, 50, seed: 7);
        Assert.Equal(RectanglePartition.Fewest(noise), RectanglePartition.Cut(noise).Count);
        var comb = Masks.Of(from x in Enumerable.Range(0, 4096) from y in Enumerable.Range(0, 200) where x % 2 == 0 || y % 20 == 10 select (x, y));
        Assert.Equal(RectanglePartition.Fewest(comb), RectanglePartition.Cut(comb).Count);
        Assert.InRange(clock.Elapsed.TotalSeconds, 0, 30);
    }

    // The first cell left is the lower left corner of some rectangle: every one is tried.
    private static int FewestByTrying(HashSet<(int X, int Y)> left)
    {
        if (left.Count == 0)
            return 0;
        var (x, y) = left.MinBy(cell => (cell.Y, cell.X));
        var best = int.MaxValue;
        for (var width = 1; left.Contains((x + width - 1, y)); width++)
            for (var height = 1; Enumerable.Range(x, width).All(at => left.Contains((at, y + height - 1))); height++)
                best = Math.Min(best, 1 + FewestByTrying([.. left.Except(Masks.CellsOf(new Block(x, y, width, height)))]));
        return best;
    }
}
