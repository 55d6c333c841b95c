using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class OrientationTests
{
    [Fact]
    public void There_are_24_and_the_inverse_of_each_takes_it_back() =>
        Shapes.Random(7, 6, 5).Sample(shape =>
        {
            Assert.Equal(24, Orientation.All.Distinct().Count());
            Assert.All(Orientation.All, way => Assert.Equal(Shapes.Written(shape), Shapes.Written(way.Inverse.Of(way.Of(shape)))));
        }, seed: "0000orient01", iter: 30);

    [Fact]
    public void No_two_of_them_are_alike_and_none_is_mirrored()
    {
        // Three cells along X, two along Y and one up beside a corner: a body that is not its own mirror image.
        var body = Shapes.Text("A...\nA...\nAAAA\n---\n....\n....\nA...");
        var ways = Orientation.All.Select(way => Shapes.Written(way.Of(body))).ToHashSet();
        Assert.Equal(24, ways.Count);
        Assert.DoesNotContain(Orientation.All, way => ways.Contains(Shapes.Written(way.Of(body.Mirrored()))));
    }

    [Fact]
    public void No_cell_is_lost_and_neighbours_stay_neighbours() =>
        Gen.Select(Shapes.Random(7, 6, 5), Gen.Int[0, 23]).Sample((shape, number) =>
        {
            var way = Orientation.All[number];
            var laid = way.Of(shape);
            Assert.Equal((shape.Count(Head.A), shape.Count(Head.B)), (laid.Count(Head.A), laid.Count(Head.B)));
            Assert.Equal(Sides(shape), Sides(laid));
        }, seed: "0000orient02", iter: 100);

    [Theory]
    [InlineData(Face.Bottom, 1, "B\nA\n")]
    [InlineData(Face.Bottom, 2, "BA\n")]
    [InlineData(Face.Top, 0, "AB\n")]
    [InlineData(Face.Left, 0, "A\n---\nB\n")]
    [InlineData(Face.Right, 0, "B\n---\nA\n")]
    [InlineData(Face.Near, 0, "AB\n")]
    public void A_face_comes_to_lie_below_before_the_shape_is_turned(Face below, int quarters, string expected) =>
        Assert.Equal(expected, Shapes.Written(new Orientation(below, quarters).Of(Shapes.Text("AB"))));

    [Fact]
    public void Two_quarters_are_what_one_quarter_twice_is()
    {
        var shape = Shapes.Text("AB.\n..A\n---\n.B.\nA..");
        Assert.Equal(Shapes.Written(shape.Turned().Turned()), Shapes.Written(new Orientation(Face.Bottom, 2).Of(shape)));
    }

    [Fact]
    public void Each_says_in_words_how_the_shape_lies()
    {
        Assert.Equal("as it is", $"{Orientation.AsItIs}");
        Assert.Equal("turned by 270 degrees", $"{new Orientation(Face.Bottom, 3)}");
        Assert.Equal("laid on its far side and turned by 90 degrees", $"{new Orientation(Face.Far, 1)}");
        Assert.Equal("laid upside down", $"{new Orientation(Face.Top, 0)}");
    }

    private static int Sides(Shape shape) =>
        (from z in Enumerable.Range(0, shape.Layers)
         from y in Enumerable.Range(0, shape.Depth)
         from x in Enumerable.Range(0, shape.Width)
         where shape[x, y, z] is not null
         select new[] { shape[x + 1, y, z], shape[x, y + 1, z], shape[x, y, z + 1] }.Count(side => side is not null)).Sum();
}
