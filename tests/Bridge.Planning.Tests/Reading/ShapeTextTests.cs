using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class ShapeTextTests
{
    [Fact]
    public void The_first_line_is_the_far_edge_and_the_first_character_is_x_0()
    {
        var shape = Shapes.Text("A..\n..B\n");
        Assert.Equal((3, 2, 1), (shape.Width, shape.Depth, shape.Layers));
        Assert.Equal(Head.A, shape[0, 1, 0]);
        Assert.Equal(Head.B, shape[2, 0, 0]);
        Assert.Null(shape[0, 0, 0]);
    }

    [Fact]
    public void Layers_come_lowest_first()
    {
        var shape = Shapes.Text("A\n---\nB\n");
        Assert.Equal((Head.A, Head.B), (shape[0, 0, 0], shape[0, 0, 1]));
    }

    [Theory]
    [InlineData("AB\n.A\n")]
    [InlineData("AB\n.A")]
    [InlineData("AB\r\n.A\r\n")]
    [InlineData("AB\n A\n")]
    [InlineData("ab\n.a\n")]
    [InlineData("\uFEFFAB\n.A\n")]
    [InlineData("# a comment, \u00e9\nAB\n#\n.A\n# the end")]
    public void The_same_shape_may_be_written_in_several_ways(string text) =>
        Assert.Equal("AB\n.A\n", Shapes.Written(Shapes.Text(text)));

    [Fact]
    public void Trailing_spaces_are_empty_cells() => Assert.Equal(4, Shapes.Text("A   \n").Width);

    [Theory]
    [InlineData("---\nAB\n", 2, 1)]
    [InlineData("AB\n---\n", 2, 0)]
    [InlineData("AB\n---\n---\nBA\n", 3, 0)]
    [InlineData("---\n---\nAB\n---\n---\n", 5, 2)]
    public void A_layer_without_lines_is_empty(string text, int layers, int worked)
    {
        var shape = Shapes.Text(text);
        Assert.Equal(layers, shape.Layers);
        Assert.Equal(2, shape.Count(worked, Head.A) + shape.Count(worked, Head.B));
        Assert.Contains(Enumerable.Range(0, layers), shape.IsEmpty);
    }

    [Theory]
    [InlineData("A.x\n", "fish.txt, line 1, column 3", "'x'")]
    [InlineData("# ok\nA\tB\n", "fish.txt, line 2, column 2", "character U+0009")]
    [InlineData("A\rB\n", "fish.txt, line 1, column 2", "character U+000D")]
    [InlineData("A\u00e9B\n", "fish.txt, line 1, column 2", "'\u00e9'")]
    [InlineData("A #B\n", "fish.txt, line 1, column 3", "'#'")]
    [InlineData("A\n--- \nA\n", "fish.txt, line 2, column 1", "'-'")]
    [InlineData("AAA\nAA\n", "fish.txt, line 2, column 3", "a line of 2 cells")]
    [InlineData("AAA\n---\nAAAA\n", "fish.txt, line 3, column 4", "a line of 4 cells")]
    [InlineData("AAA\n\nAAA\n", "fish.txt, line 2, column 1", "a line of no cells")]
    [InlineData("\nAAA\n", "fish.txt, line 1, column 1", "a line of no cells")]
    [InlineData("A\nA\n---\nA\n---\nA\nA\n", "fish.txt, line 5, column 1", "layer 1 ending after 1 lines")]
    [InlineData("---\nA\n---\nA\nA\n", "fish.txt, line 6, column 1", "layer 2 ending after 2 lines")]
    [InlineData("", "fish.txt", "no line of cells")]
    [InlineData("# nothing\n---\n", "fish.txt", "no line of cells")]
    public void A_mistake_is_refused_by_its_place(string text, string place, string found)
    {
        var refusal = Refusing.Of(() => Shapes.Text(text));
        Assert.Equal((place, found), (refusal.Place, refusal.Found));
    }

    [Fact]
    public void A_line_of_another_width_is_refused_naming_both_places() =>
        Assert.Equal("3 cells, as line 2 has", Refusing.Of(() => Shapes.Text("# fish\nAAA\n---\nAA\n")).Allowed);

    [Fact]
    public void A_layer_of_another_depth_is_refused_naming_both_places() =>
        Assert.Equal("2 lines, as layer 1 from line 2 has", Refusing.Of(() => Shapes.Text("---\nA\nA\n---\nA\n")).Allowed);

    [Theory]
    [InlineData("AAAA\n", "fish.txt, line 1, column 4")]
    [InlineData("A\nA\nA\nA\nA\n", "fish.txt, line 5, column 1")]
    [InlineData("A\n---\nA\n---\nA\n", "fish.txt, line 4, column 1")]
    public void What_is_larger_than_the_grid_is_refused_by_its_place(string text, string place) =>
        Refusing.IsRefusedAt(place, () => Shapes.Text(text, new ShapeOptions { Limit = new Grid(3, 4, 2) }));

    [Fact]
    public void A_shape_of_just_the_grid_is_accepted() =>
        Assert.Equal(2, Shapes.Text("AAA\nAAA\n---\nAAA\nAAA\n", new ShapeOptions { Limit = new Grid(3, 2, 2) }).Layers);

    [Fact]
    public void A_volume_of_too_many_cells_is_refused_before_memory_is_spent()
    {
        var layer = string.Concat(Enumerable.Repeat(new string('.', 4096) + "\n", 2048));
        var refusal = Refusing.Of(() => Shapes.Text(layer + string.Concat(Enumerable.Repeat("---\n", 11)) + layer));
        Assert.Equal($"{4096 * 2048L * 12} cells", refusal.Found.Split("= ")[1]);
    }

    [Fact]
    public void What_is_written_is_read_back_the_same() =>
        Shapes.Random(20, 20, 4).Sample(shape =>
            ShapeCheck.Compare(shape, Shapes.Text(Shapes.Written(shape))).IsNone && Shapes.Text(Shapes.Written(shape)).Layers == shape.Layers,
            seed: "0000text0001", iter: 200);

    [Fact]
    public void Any_bytes_give_a_shape_or_a_refusal() =>
        Gen.Frequency((9, Gen.Char["AB. #-\n"].Select(likely => (byte)likely)), (1, Gen.Byte)).Array[0, 60].Sample(bytes =>
            Refusing.GivesShapeOrRefusal(() => ShapeText.Parse(bytes, "noise.txt", Shapes.Any)), seed: "0000text0002", iter: 5000);

    [Fact]
    public void Text_cut_anywhere_gives_a_shape_or_a_refusal()
    {
        var text = "# fish\nAB.\n.AB\n---\n---\nA.B\nBBB\n";
        Assert.All(Enumerable.Range(0, text.Length), length => Assert.True(Refusing.GivesShapeOrRefusal(() => Shapes.Text(text[..length]))));
    }
}
