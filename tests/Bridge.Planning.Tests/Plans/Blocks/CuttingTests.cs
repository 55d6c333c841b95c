using CsCheck;

namespace Bridge.Planning.Tests;

public class CuttingTests
{
    [Fact]
    public void Every_cell_is_in_one_block_and_there_are_no_more_blocks_than_rectangles() =>
        Gen.Select(Masks.Noise(30, 30), Gen.Int[0, 3_000_000]).Sample((mask, steps) =>
        {
            var cutting = Cutting.Of(mask, mayOverlap: false, steps);
            Masks.AssertPartition(mask, [.. cutting.Blocks.Select(block => block.MovedBack(mask.Origin))]);
            Assert.Equal(RectanglePartition.Fewest(mask), cutting.Rectangles);
            Assert.InRange(cutting.Blocks.Count, cutting.AtLeast, cutting.Rectangles);
        }, seed: "0000cutting1", iter: 100);

    [Fact]
    public void Every_cell_is_in_a_block_where_they_may_overlap() =>
        Gen.Select(Masks.Noise(30, 30), Gen.Int[0, 3_000_000]).Sample((mask, steps) =>
        {
            var cutting = Cutting.Of(mask, mayOverlap: true, steps);
            Masks.AssertCover(mask, [.. cutting.Blocks.Select(block => block.MovedBack(mask.Origin))]);
            Assert.InRange(cutting.Blocks.Count, cutting.AtLeast, cutting.Rectangles);
        }, seed: "0000cutting2", iter: 100);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Small_layers_are_cut_into_the_fewest_blocks(bool mayOverlap) =>
        Masks.Noise(6, 3).Sample(mask =>
        {
            var cutting = Cutting.Of(mask, mayOverlap, 20_000_000);
            Assert.Equal(FewestByTrying.Of(mask, mayOverlap), cutting.Blocks.Count);
            Assert.Equal(cutting.Blocks.Count, cutting.AtLeast);
        }, seed: "0000cutting3", iter: 200);

    // What an exact solver (CP-SAT of OR-Tools 9.15) found and proved for layers of 16 x 16 cells of this noise.
    [Theory]
    [InlineData(20, 36)]
    [InlineData(40, 44)]
    public void A_layer_is_cut_into_as_few_blocks_as_an_exact_solver_found(int percent, int blocks)
    {
        var cutting = Cutting.Of(Masks.Noise(16, 16, percent, seed: percent * 1000), mayOverlap: false, 100_000_000);
        Assert.Equal((blocks, blocks), (cutting.Blocks.Count, cutting.AtLeast));
    }

    [Fact]
    public void A_cover_works_no_end_of_a_block_twice()
    {
        var cutting = Cutting.Of(Masks.Text(".A.\nAAA\n.A."), mayOverlap: true, 10_000_000);
        Assert.Equal(2, cutting.Blocks.Count);
        cutting = Cutting.Of(Masks.Noise(16, 16, 60, seed: 5), mayOverlap: true, 20_000_000);
        Assert.All(cutting.Blocks, block => Assert.All(block.Shortened(), shorter =>
            Assert.Contains(Masks.CellsOf(block).Except(Masks.CellsOf(shorter)), cell =>
                !cutting.Blocks.Any(other => other != block && Masks.CellsOf(other).Contains(cell)))));
    }
}
