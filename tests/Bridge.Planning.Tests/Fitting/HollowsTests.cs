using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class HollowsTests
{
    [Fact]
    public void A_hollow_needs_no_support_and_cannot_be_seen()
    {
        var hollowed = 0;
        Gen.Select(Boxes(), Gen.Int[1, 2], Gen.Int[0, 1]).Sample((shape, wall, overhang) =>
        {
            var hollow = shape.Hollowed(wall, overhang);
            var removed = ShapeCheck.Compare(shape, hollow);
            Assert.Equal((0, 0), (removed.Extra, removed.WrongHead));
            Assert.Equal(Shapes.Written(shape), Shapes.Written(hollow.Filled()));
            var machine = Machines.Desktop with { OverhangCells = overhang };
            if (Support.Falling(shape, machine) is null)
                Assert.Null(Support.Falling(hollow, machine));
            hollowed += removed.Missing > 0 ? 1 : 0;
        }, seed: "0000hollow01", iter: 200, threads: 1);
        Assert.InRange(hollowed, 20, 200);
    }

    [Fact]
    public void The_vault_narrows_upwards()
    {
        var cube = Cube(7);
        var hollow = cube.Hollowed(1, 1);
        Assert.Equal([0, 25, 25, 25, 9, 1, 0], Enumerable.Range(0, 7).Select(layer => 49 - hollow.Count(layer, Head.A)));
    }

    [Fact]
    public void Without_overhang_nothing_holds_a_roof()
    {
        var cube = Cube(7);
        Assert.Equal(Shapes.Written(cube), Shapes.Written(cube.Hollowed(1, 0)));
    }

    [Fact]
    public void Only_closed_hollows_are_filled()
    {
        var open = Shapes.Text("AAA\nA.A\nAAA\n---\nAAA\nAAA\nAAA"); // open below
        Assert.Equal(Shapes.Written(open), Shapes.Written(open.Filled()));
        var closed = Shapes.Text("AAA\nABA\nAAA\n---\nAAA\nA.A\nAAA\n---\nAAA\nAAA\nAAA").Filled();
        Assert.Equal((26, 1), ((int)closed.Count(Head.A), (int)closed.Count(Head.B)));
    }

    private static Shape Cube(int side) => Shapes.Text(string.Join("---\n", Enumerable.Repeat(
        string.Concat(Enumerable.Repeat(new string('A', side) + "\n", side)), side)));

    // Solid shapes of a few thick boxes.
    private static Gen<Shape> Boxes() =>
        Gen.Select(Gen.Int[0, 6], Gen.Int[0, 6], Gen.Int[0, 3], Gen.Int[3, 9], Gen.Int[3, 9], Gen.Int[3, 8]).Array[1, 4].Select(boxes =>
        {
            var shape = new ShapeBuilder(16, 16, 12);
            foreach (var (left, bottom, low, cellsX, cellsY, layers) in boxes)
                for (var layer = low; layer < low + layers; layer++)
                    for (var y = bottom; y < bottom + cellsY; y++)
                        for (var x = left; x < left + cellsX; x++)
                            shape.Work(new Cell(x, y), layer, Head.A);
            return shape.Build().Filled();
        });
}
