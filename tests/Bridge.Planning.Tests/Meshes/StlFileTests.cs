using System.Numerics;
using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class StlFileTests
{
    private const string Full = "AAA\nAAA\n";

    private static readonly ShapeOptions Sixteen = new() { Limit = new Grid(16, 16, 16) };
    private static readonly Vector3[] Brick = Meshes.Box(-5, 7, 100, 3, 2, 2);

    [Fact]
    public void Text_and_binary_give_the_same_solid_standing_on_the_lowest_layer()
    {
        var three = Sixteen with { Size = new Length(3, false) };
        Assert.Equal($"{Full}---\n{Full}", Read(Meshes.Binary(Brick), three).Written);
        Assert.Equal($"{Full}---\n{Full}", Read(Meshes.Text(Brick), three).Written);
        Assert.Empty(Read(Meshes.Text(Brick), three).Cautions);
    }

    [Fact]
    public void Without_a_size_it_is_as_large_as_the_grid_has_room_for()
    {
        var shape = StlFile.Parse(Meshes.Binary(Brick), "brick.stl", Sixteen);
        Assert.Equal((16, 11, 11, 16 * 11 * 11), (shape.Width, shape.Depth, shape.Layers, shape.Count(Head.A)));
        var mm = StlFile.Parse(Meshes.Binary(Brick), "brick.stl", Sixteen with { Size = new Length(18, true), Pitch = new Pitch(2, 2, 3) });
        Assert.Equal((9, 6, 4), (mm.Width, mm.Depth, mm.Layers));
    }

    [Theory]
    [InlineData("90", 2, 3, 2)]
    [InlineData("x90", 3, 2, 2)]
    [InlineData("y-90", 2, 2, 3)]
    [InlineData("y90,z90,x90", 2, 3, 2)]
    public void It_is_turned_about_any_axis(string turns, int width, int depth, int layers)
    {
        var shape = StlFile.Parse(Meshes.Binary(Brick), "brick.stl", Sixteen with { Size = new Length(3, false), Turns = Turn.ParseAll(turns)! });
        Assert.Equal((width, depth, layers, 12L), (shape.Width, shape.Depth, shape.Layers, shape.Count(Head.A)));
    }

    [Fact]
    public void A_turn_is_counter_clockwise_seen_from_the_axis_end()
    {
        // A brick with a tower on its +X end: turned about -Y by a quarter +X becomes up; about +Z it becomes +Y.
        var mesh = Meshes.Binary([.. Meshes.Box(0, 0, 0, 4, 1, 1), .. Meshes.Box(3, 0, 1, 1, 1, 1)]);
        var four = Sixteen with { Size = new Length(4, false) };
        Assert.Equal("AAAA\n---\n...A\n", Shapes.Written(StlFile.Parse(mesh, "l.stl", four)));
        Assert.Equal("A\nA\nA\nA\n---\nA\n.\n.\n.\n", Shapes.Written(StlFile.Parse(mesh, "l.stl", four with { Turns = Turn.ParseAll("z90")! })));
        Assert.Equal(".A\n---\n.A\n---\n.A\n---\nAA\n", Shapes.Written(StlFile.Parse(mesh, "l.stl", four with { Turns = Turn.ParseAll("y-90")! })));
        Assert.Equal("...A\nAAAA\n", Shapes.Written(StlFile.Parse(mesh, "l.stl", four with { Turns = Turn.ParseAll("x-90")! })));
    }

    // Lattice points of a ball: OEIS A000605, r = 3, 7 and 10. The mesh lies between the shells of r^2 and r^2 + 1.
    [Theory]
    [InlineData(3, 123)]
    [InlineData(7, 1419)]
    [InlineData(10, 4169)]
    public void A_ball_of_triangles_holds_just_the_lattice_points_of_the_ball(int radius, long count)
    {
        var skin = radius + 0.6f * (MathF.Sqrt(radius * radius + 1) - radius);
        var corners = Meshes.Ball(new Vector3(12.5f), skin, cuts: 6).Select(corner => new Cells(corner.X, corner.Y, corner.Z)).ToArray();
        var shape = MeshOnGrid.Of(corners, default, new Grid(25, 25, 25), "ball", Sixteen);
        Assert.Equal(count, shape.Count(Head.A));
    }

    [Fact]
    public void A_mesh_that_lies_through_centres_of_cells_is_as_large_as_it_should_be()
    {
        var corners = Meshes.Box(0.5f, 0.5f, 0.5f, 3, 2, 1).Select(corner => new Cells(corner.X, corner.Y, corner.Z)).ToArray();
        Assert.Equal(6, MeshOnGrid.Of(corners, default, new Grid(5, 5, 5), "brick", Sixteen).Count(Head.A));
    }

    [Fact]
    public void An_inside_out_mesh_and_overlapping_parts_become_the_solid_with_a_caution()
    {
        var three = Sixteen with { Size = new Length(3, false) };
        var (written, cautions) = Read(Meshes.Binary(Meshes.Backwards(Brick)), three);
        Assert.Equal($"{Full}---\n{Full}", written);
        Assert.Contains("inside out", Assert.Single(cautions));

        (written, cautions) = Read(Meshes.Binary([.. Meshes.Box(0, 0, 0, 2, 2, 2), .. Meshes.Box(1, 0, 0, 2, 2, 2)]), three);
        Assert.Equal($"{Full}---\n{Full}", written);
        Assert.Contains("overlap", Assert.Single(cautions));
    }

    [Fact]
    public void A_hole_and_a_turned_triangle_leave_the_solid_whole_with_a_caution()
    {
        var ball = Meshes.Ball(new Vector3(8), 8, cuts: 4);
        var whole = Read(Meshes.Binary(ball), Sixteen);
        Assert.Empty(whole.Cautions);

        var open = Read(Meshes.Binary(ball.Skip(3 * 30)), Sixteen);
        Assert.Contains("of its edges belong to one triangle alone", Assert.Single(open.Cautions));
        var difference = ShapeCheck.Compare(Shapes.Text(whole.Written), Shapes.Text(open.Written));
        Assert.Equal((0, 0), (difference.Extra, difference.WrongHead));
        Assert.InRange(difference.Missing, 0, 2); // just below the hole

        var turned = Read(Meshes.Binary([.. Meshes.Backwards(ball.Take(3 * 30)), .. ball.Skip(3 * 30)]), Sixteen);
        Assert.Contains("face different ways", Assert.Single(turned.Cautions));
        Assert.Equal(whole.Written, turned.Written);
    }

    [Fact]
    public void A_hollow_in_a_mesh_stays_hollow()
    {
        var shell = Meshes.Binary([.. Meshes.Box(0, 0, 0, 3, 3, 3), .. Meshes.Backwards(Meshes.Box(1, 1, 1, 1, 1, 1))]);
        Assert.Equal(26, StlFile.Parse(shell, "shell.stl", Sixteen with { Size = new Length(3, false) }).Count(Head.A));
    }

    [Fact]
    public void Options_that_make_no_sense_for_a_mesh_are_refused_in_words()
    {
        Assert.Contains("a threshold", Refusing.Of(() => Parse(Sixteen with { Threshold = 3 })).Found);
        Assert.Contains("wide strokes", Refusing.Of(() => Parse(Sixteen with { Wide = true })).Found);
        Assert.Contains("one layer", Refusing.Of(() => Parse(Sixteen with { Limit = new Grid(16, 16, 1) })).Found);
        Assert.Contains("17 x 11.3 x 11.3 cells", Refusing.Of(() => Parse(Sixteen with { Size = new Length(17, false) })).Found);
        var hollow = Sixteen with { Size = new Length(6, false), Hollow = new Length(1, false), Pitch = new Pitch(1, 1, 4 / 3.0) };
        Assert.Equal(6 * 4 * 3 - 4 * 2 * 2, Parse(hollow).Count(Head.A));
    }

    private static Shape Parse(ShapeOptions options) => ShapeFile.Parse(Meshes.Binary(Brick), "brick.stl", options);

    private static (string Written, List<string> Cautions) Read(byte[] file, ShapeOptions options)
    {
        List<string> told = [];
        return (Shapes.Written(StlFile.Parse(file, "fish.stl", options with { Caution = told.Add })), told);
    }
}
