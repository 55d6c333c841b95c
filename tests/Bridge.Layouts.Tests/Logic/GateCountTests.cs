namespace Bridge.Layouts.Tests;

public class GateCountTests
{
    // Each counted by hand on its drawing: NOT, AND, OR; NAND only; NAND of two inputs.
    [Theory]
    [InlineData(new[] { 0, 1, 3, 7, 8, 9, 11, 15 }, 2, 2, 1, 5, 5)] // B'C' + CD
    [InlineData(new[] { 15 }, 0, 1, 0, 2, 6)] // ABCD
    [InlineData(new[] { 3, 7, 8, 9, 10, 11, 12, 13, 14, 15 }, 0, 1, 1, 3, 3)] // A + CD
    [InlineData(new[] { 0, 1, 2, 3, 4, 5, 6, 7 }, 1, 0, 0, 1, 1)] // A'
    [InlineData(new[] { 8, 9, 10, 11, 12, 13, 14, 15 }, 0, 0, 0, 0, 0)] // A
    public void Gates_of_a_sum_are_counted_as_on_its_drawing(int[] ones, int not, int and, int or, int nand, int nand2)
    {
        var sum = SumOfProducts.Least(new LogicFunction(4, minterm => ones.Contains(minterm)));
        Assert.Equal(new GateCount(not, and, or, nand, nand2), GateCount.Of([sum]));
        Assert.Equal(new GateCount(not, and, or, nand, nand2), GateCount.Of([sum, sum]) with { Or = or, Nand = nand, Nand2 = nand2 });
    }
}
