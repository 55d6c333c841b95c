using System.Buffers.Binary;
using System.Numerics;
using System.Text;
using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class BrokenStlTests
{
    private static readonly ShapeOptions Eight = new() { Limit = new Grid(8, 8, 8) };
    private static readonly Vector3[] Brick = Meshes.Box(0, 0, 0, 3, 2, 2);

    [Theory]
    [InlineData("solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0 zero\n", "line 4", "'zero'", "a number")]
    [InlineData("solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0\nendloop\n", "line 5", "'endloop'", "a number")]
    [InlineData("solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nendloop\n", "line 5", "'endloop'", "vertex")]
    [InlineData("solid\nfacet normal 0 0 1\n", "line 3", "the end of the file", "outer")]
    [InlineData("solid x\n", "line 2", "the end of the file", "facet or endsolid")]
    [InlineData("solid x\nendsolid x\nfish", "line 3", "'fish'", "solid")]
    public void A_word_that_does_not_belong_is_named_with_its_line(string text, string line, string found, string allowed)
    {
        var refusal = Refusing.Of(() => Read(Encoding.ASCII.GetBytes(text)));
        Assert.Equal(($"fish.stl, {line}", found, allowed), (refusal.Place, refusal.Found, refusal.Allowed));
    }

    [Fact]
    public void An_announced_number_of_triangles_is_held_against_the_file_before_memory_is_spent()
    {
        var file = Meshes.Binary(Brick);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(80), 1_900_000);
        Assert.Contains("where 1900000 triangles are announced", Refusing.Of(() => Read(file)).Found);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(80), uint.MaxValue);
        Assert.Contains("where 4294967295 triangles are announced", Refusing.Of(() => Read(file)).Found);
        Assert.Equal("11 bytes", Refusing.Of(() => Read(file.AsSpan(0, 11).ToArray())).Found);
    }

    [Theory]
    [InlineData(float.NaN)]
    [InlineData(float.PositiveInfinity)]
    [InlineData(-1e13f)]
    public void A_number_without_bounds_is_refused_with_its_triangle(float number)
    {
        var corners = Brick.ToArray();
        corners[7].Y = number;
        Assert.Equal("fish.stl, triangle 3", Refusing.Of(() => Read(Meshes.Binary(corners))).Place);
        Assert.Equal("fish.stl, triangle 3", Refusing.Of(() => Read(Meshes.Text(corners))).Place);
    }

    [Fact]
    public void What_encloses_nothing_is_refused()
    {
        Assert.Equal("a mesh without triangles", Refusing.Of(() => Read(Meshes.Text())).Found);
        Assert.Equal("a mesh that is flat", Refusing.Of(() => Read(Meshes.Binary(Meshes.Box(0, 0, 0, 3, 3, 0)))).Found);
        Assert.Contains("no centre of a cell", Refusing.Of(() => Read(Meshes.Binary(Vector3.Zero, Vector3.Zero, Vector3.One))).Found);
        Assert.Contains("a mesh that is open", Refusing.Of(() => Read(Meshes.Binary(
            Vector3.Zero, new(9, 0, 3), new(0, 9, 3), new(9, 0, 3), new(9, 9, 1), new(0, 9, 3)))).Found);
    }

    [Fact]
    public void Triangles_of_no_area_do_no_harm()
    {
        var needle = new Vector3[] { new(0, 0, 0), new(3, 2, 2), new(1.5f, 1, 1) };
        var withFlaws = Read(Meshes.Binary([.. Brick, .. needle, new(1, 1, 1), new(1, 1, 1), new(1, 1, 1)]));
        Assert.Equal(Shapes.Written(Read(Meshes.Binary(Brick))), Shapes.Written(withFlaws));
    }

    [Fact]
    public void A_cut_off_mesh_is_refused_wherever_it_is_cut()
    {
        var (binary, text) = (Meshes.Binary(Brick), Meshes.Text(Brick));
        Assert.All(Enumerable.Range(0, binary.Length), length => Refusing.Of(() => Read(binary[..length])));
        var whole = text.AsSpan().LastIndexOf("endsolid"u8);
        Assert.All(Enumerable.Range(0, whole + 8), length => Refusing.Of(() => Read(text[..length])));
    }

    [Fact]
    public void A_damaged_mesh_gives_a_shape_or_a_refusal()
    {
        var (binary, text) = (Meshes.Binary(Brick), Meshes.Text(Brick));
        Gen.Select(Gen.Bool, Gen.Select(Gen.Int[0, binary.Length - 1], Gen.Byte).Array[1, 4]).Sample((isText, damages) =>
        {
            var damaged = (isText ? text : binary).ToArray();
            foreach (var (at, value) in damages)
                damaged[at] = value;
            return Refusing.GivesShapeOrRefusal(() => Read(damaged));
        }, seed: "0000stl00001", iter: 2000);
    }

    [Fact]
    public void Any_triangles_give_a_shape_or_a_refusal()
    {
        var corner = Gen.Select(Gen.Float[-9, 9], Gen.Float[-9, 9], Gen.Float[-9, 9]).Select(at => new Vector3(at.Item1, MathF.Round(at.Item2), at.Item3));
        corner.Array[3, 60].Sample(corners => Refusing.GivesShapeOrRefusal(() => Read(Meshes.Binary(corners[..(corners.Length / 3 * 3)]))),
            seed: "0000stl00002", iter: 500);
    }

    private static Shape Read(byte[] file) => StlFile.Parse(file, "fish.stl", Eight);
}
