using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class ShapeCsvTests
{
    [Theory]
    [InlineData("A,B,\n.,A,\n")]
    [InlineData("A,B,\r\n,A,\r\n")]
    [InlineData("a,b,.\n ,A,\"\"\n")]
    [InlineData("\"A\",\"B\",\n,\"A\",")]
    [InlineData("# a kite,,\nA,B,\n\"# quoted\",,\n,A,\n")]
    public void The_same_shape_may_be_written_in_several_ways(string text) =>
        Assert.Equal("AB.\n.A.\n", Shapes.Written(Shapes.Csv(text)));

    [Theory]
    [InlineData("A,B\n---\nB,A\n")]
    [InlineData("A,B\n---,\nB,A\n")]
    public void A_line_of_dashes_separates_layers(string text) => Assert.Equal("AB\n---\nBA\n", Shapes.Written(Shapes.Csv(text)));

    [Theory]
    [InlineData("A,x\n", "fish.csv, line 1, column 3", "'x'")]
    [InlineData("A,BA\n", "fish.csv, line 1, column 4", "a cell of more than one character")]
    [InlineData("A,\"B\n", "fish.csv, line 1, column 3", "'\"'")]
    [InlineData("A;B\n", "fish.csv, line 1, column 2", "a cell of more than one character")]
    [InlineData("A,B\nA\n", "fish.csv, line 2, column 2", "a line of 1 cells")]
    [InlineData("A,B\n\n", "fish.csv, line 2, column 1", "a line of no cells")]
    [InlineData("A,,,,\n", "fish.csv, line 1, column 6", "more than 4 cells")]
    public void A_mistake_is_refused_by_its_place(string text, string place, string found)
    {
        var refusal = Refusing.Of(() => Shapes.Csv(text, new ShapeOptions { Limit = new Grid(4, 4, 4) }));
        Assert.Equal((place, found), (refusal.Place, refusal.Found));
    }

    [Fact]
    public void Any_bytes_give_a_shape_or_a_refusal() =>
        Gen.Frequency((9, Gen.Char["AB.,,,\"#-\n"].Select(likely => (byte)likely)), (1, Gen.Byte)).Array[0, 60].Sample(bytes =>
            Refusing.GivesShapeOrRefusal(() => ShapeCsv.Parse(bytes, "noise.csv", Shapes.Any)), seed: "0000csv00001", iter: 5000);
}
