using CsCheck;

namespace Bridge.Planning.Tests;

public class CellsApartTests
{
    private const long Plenty = 100_000_000;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void There_are_never_more_of_them_than_the_fewest_blocks(bool mayOverlap) =>
        Gen.Select(Masks.Noise(5, 4), Gen.Int[0, 100_000]).Sample((mask, steps) =>
            Assert.InRange(CellsApart.Of(mask, int.MaxValue, new Effort(steps)).Count, 0, FewestByTrying.Of(mask, mayOverlap)),
        seed: "0000apart001", iter: 150);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void In_more_than_half_of_small_layers_they_are_as_many_as_the_fewest_blocks(bool mayOverlap)
    {
        var masks = FixedSamples.Of(Masks.Noise(5, 4), 150).ToArray();
        var proved = masks.Count(mask => CellsApart.Of(mask, int.MaxValue, new Effort(Plenty)).Count == FewestByTrying.Of(mask, mayOverlap));
        Assert.True(proved > masks.Length / 2, $"{proved} of {masks.Length} proved");
    }

    [Fact]
    public void No_block_at_all_holds_two_of_them() =>
        Masks.Noise(12, 12).Sample(mask =>
        {
            var apart = CellsApart.Of(mask, int.MaxValue, new Effort(Plenty)).Select(place => (place % mask.Width, place / mask.Width)).ToHashSet();
            var candidates = new BlockCandidates(mask, null, mayOverlap: false, 100_000);
            Assert.All(candidates.Blocks, block => Assert.InRange(Masks.CellsOf(block).Count(apart.Contains), 0, 1));
            Assert.Subset(Masks.CellsOf(mask).ToHashSet(), apart);
        }, seed: "0000apart002", iter: 40);

    [Fact]
    public void Two_cells_are_mates_where_some_block_holds_both() =>
        Masks.Noise(7, 6).Sample(mask =>
        {
            var (mates, listed, candidates) = (new Mates(mask), new List<int>(), new BlockCandidates(mask, null, mayOverlap: false, 100_000));
            var together = candidates.Blocks.SelectMany(block =>
                from one in Masks.CellsOf(block) from other in Masks.CellsOf(block) select (one, other)).ToHashSet();
            foreach (var one in Masks.CellsOf(mask))
            {
                mates.List(one.Y * mask.Width + one.X, listed);
                Assert.Equal(listed.Count, listed.Distinct().Count());
                foreach (var other in Masks.CellsOf(mask).Where(other => other != one))
                {
                    Assert.Equal(together.Contains((one, other)), listed.Contains(other.Y * mask.Width + other.X));
                    Assert.Equal(together.Contains((one, other)), mates.AreTogether(one.Y * mask.Width + one.X, other.Y * mask.Width + other.X));
                }
            }
        }, seed: "0000apart003", iter: 40);

    [Fact]
    public void A_large_layer_has_a_bound_that_is_near_to_its_plan()
    {
        var cutting = Cutting.Of(Masks.Noise(100, 100, 30, seed: 4), mayOverlap: false, steps: 50_000_000);
        Assert.InRange(cutting.Blocks.Count, cutting.AtLeast, cutting.AtLeast * 1.2);
    }
}
