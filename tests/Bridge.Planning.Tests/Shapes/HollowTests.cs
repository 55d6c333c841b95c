using System.Text;

namespace Bridge.Planning.Tests;

public class HollowTests
{
    [Fact]
    public void A_flat_shape_keeps_an_outline_as_thick_as_its_walls()
    {
        var shape = Shapes.Text("AAAAA\nAAABA\nAAAAA\nAAAAA\n");
        Assert.Equal("AAAAA\nA...A\nA...A\nAAAAA\n", Shapes.Written(Hollow.Of(shape, 1)));
        Assert.Equal(Shapes.Written(shape), Shapes.Written(Hollow.Of(shape, 2)));
    }

    [Fact]
    public void A_solid_shape_keeps_walls_and_a_roof_and_is_open_below()
    {
        const string Full = "AAAA\nAAAA\nAAAA\n", Ring = "AAAA\nA..A\nAAAA\n";
        Assert.Equal($"{Ring}---\n{Ring}---\n{Full}", Shapes.Written(Hollow.Of(Shapes.Text($"{Full}---\n{Full}---\n{Full}"), 1)));
    }

    // By the definition: a cell goes where all within the walls' thickness beside and above it are worked.
    [Fact]
    public void Just_the_cells_deeper_than_the_walls_go() => CsCheck.Check.Sample(Shapes.Random(9, 9, 4), shape =>
    {
        var hollow = Hollow.Of(shape, 1);
        foreach (var (layer, y, x) in from l in Enumerable.Range(0, shape.Layers) from i in Enumerable.Range(0, 81) select (l, i / 9, i % 9))
        {
            var isDeep = Enumerable.Range(-1, 3).All(dx => Enumerable.Range(-1, 3).All(dy =>
                Enumerable.Range(0, shape.Layers == 1 ? 1 : 2).All(dz => shape[x + dx, y + dy, layer + dz] is not null)));
            Assert.Equal(isDeep ? null : shape[x, y, layer], hollow[x, y, layer]);
        }
    }, iter: 300, seed: "0000hollow01");

    [Fact]
    public void Walls_in_mm_are_rounded_to_cells_and_those_that_fill_all_are_told_of()
    {
        List<string> told = [];
        var options = new ShapeOptions { Pitch = new Pitch(2, 2, 2), Caution = told.Add };
        Assert.Equal("AAA\nA.A\nAAA\n", Read(options with { Hollow = new Length(2.5, true) }));
        Assert.Empty(told);
        Assert.Equal("AAA\nAAA\nAAA\n", Read(options with { Hollow = new Length(9, false) }));
        Assert.Contains("nothing is thicker", Assert.Single(told));
        Assert.Contains("walls of 0.5mm", Refusing.Of(() => Read(options with { Hollow = new Length(0.5, true) })).Found);
    }

    private static string Read(ShapeOptions options) => Shapes.Written(ShapeFile.Parse(Encoding.UTF8.GetBytes("AAA\nAAA\nAAA\n"), "block.txt", options));
}
