using CsCheck;

namespace Bridge.Planning.Tests;

public class BlockMinimumTests
{
    private const long Plenty = 100_000_000;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_fewest_blocks_are_found_and_proved(bool mayOverlap) =>
        Masks.Noise(5, 4).Sample(mask =>
        {
            var rectangles = RectanglePartition.Cut(mask);
            var fewest = FewestByTrying.Of(mask, mayOverlap);
            var (blocks, atLeast) = BlockMinimum.Find(mask, null, rectangles.Count, mayOverlap, new Effort(Plenty));
            Assert.Equal(fewest, blocks?.Count ?? rectangles.Count);
            Assert.Equal(fewest, atLeast);
            if (blocks is not null && mayOverlap)
                Masks.AssertCover(mask, blocks);
            else if (blocks is not null)
                Masks.AssertPartition(mask, blocks);
        }, seed: "0000minimum1", iter: 200);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void However_little_effort_there_is_the_bound_holds(bool mayOverlap) =>
        Gen.Select(Masks.Noise(5, 4), Gen.Int[0, 5000]).Sample((mask, steps) =>
        {
            var (_, atLeast) = BlockMinimum.Find(mask, null, RectanglePartition.Fewest(mask), mayOverlap, new Effort(steps));
            Assert.InRange(atLeast, 1, FewestByTrying.Of(mask, mayOverlap));
        }, seed: "0000minimum2", iter: 200);

    [Fact]
    public void No_block_is_worth_more_than_a_record() =>
        Gen.Select(Masks.Noise(12, 12), Gen.Bool, Gen.Int[0, 1_000_000]).Sample((mask, mayOverlap, steps) =>
        {
            var candidates = new BlockCandidates(mask, null, mayOverlap, 100_000);
            var prices = BlockPrices.Of(candidates, new Effort(steps));
            Assert.All(candidates.Blocks, block =>
                Assert.InRange(candidates.NumbersOf(block).Sum(cell => (decimal)prices.Cells[cell]), decimal.MinValue, (decimal)BlockPrices.Record));
            Assert.True(!mayOverlap || prices.Cells.All(price => price >= 0));
        }, seed: "0000prices01", iter: 50);

    [Fact]
    public void Cells_that_are_not_due_may_be_worked_and_need_not_be()
    {
        var mask = Masks.Text("AAA\nA.A");
        bool[] isDue = [true, false, true, false, false, false];
        var (blocks, atLeast) = BlockMinimum.Find(mask, isDue, 3, true, new Effort(Plenty));
        Assert.Equal(2, blocks!.Count);
        Assert.Equal(2, atLeast);
        Assert.Superset(new HashSet<(int, int)> { (0, 0), (2, 0) }, blocks.SelectMany(Masks.CellsOf).ToHashSet());
    }
}
