using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class ShapeBuilderTests
{
    [Fact]
    public void Worked_cells_are_kept_with_their_head_and_counted()
    {
        var builder = new ShapeBuilder(3, 2);
        builder.Work(new Cell(2, 1), 1, Head.B);
        builder.Work(new Cell(0, 0), 1, Head.A);
        var shape = builder.Build();
        Assert.Equal((2, Head.B, Head.A), (shape.Layers, shape[2, 1, 1], shape[0, 0, 1]));
        Assert.Equal((1, 1, 0), (shape.Count(1, Head.A), shape.Count(1, Head.B), shape.Count(7, Head.A)));
        Assert.Equal((true, false), (shape.IsEmpty(0), shape.IsEmpty(1)));
    }

    [Fact]
    public void A_cell_worked_again_is_told_and_the_last_head_counts()
    {
        var builder = new ShapeBuilder(1, 1);
        Assert.True(builder.Work(new Cell(0, 0), 0, Head.A));
        Assert.False(builder.Work(new Cell(0, 0), 0, Head.B));
        Assert.Equal(Head.B, builder.Build()[0, 0, 0]);
    }

    [Theory]
    [InlineData(-1, 0, 0)]
    [InlineData(3, 0, 0)]
    [InlineData(0, -1, 0)]
    [InlineData(0, 2, 0)]
    [InlineData(0, 0, -1)]
    public void A_cell_outside_cannot_be_worked_and_reads_as_empty(int x, int y, int layer)
    {
        var builder = new ShapeBuilder(3, 2);
        Assert.Throws<ArgumentOutOfRangeException>(() => builder.Work(new Cell(x, y), layer, Head.A));
        Assert.Null(builder.Build()[x, y, layer]);
    }

    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(4097, 1, 1)]
    [InlineData(1, 0, 1)]
    [InlineData(1, 4097, 1)]
    [InlineData(1, 1, 4097)]
    [InlineData(4096, 4096, 6)]
    [InlineData(int.MaxValue, int.MaxValue, int.MaxValue)]
    public void A_size_out_of_bounds_is_refused(int width, int depth, int layers) =>
        Refusing.IsRefusedAt("the shape", () => _ = new ShapeBuilder(width, depth, layers));

    [Fact]
    public void A_shape_once_built_does_not_change()
    {
        var builder = new ShapeBuilder(1, 1);
        var empty = builder.Build();
        builder.Work(new Cell(0, 0), 0, Head.A);
        Assert.True(empty.IsEmptyEverywhere);
    }

    [Fact]
    public void The_lowest_layers_can_be_taken_alone() => Assert.Equal("A\n---\nB\n", Shapes.Written(Shapes.Text("A\n---\nB\n---\nA").Lowest(2)));

    [Fact]
    public void A_shape_can_be_turned_and_mirrored()
    {
        var shape = Shapes.Text("AB.\n..A");
        Assert.Equal(".A\nB.\nA.\n", Shapes.Written(shape.Turned()));
        Assert.Equal(".BA\nA..\n", Shapes.Written(shape.Mirrored()));
        Assert.Equal(Shapes.Written(shape), Shapes.Written(shape.Turned().Turned().Turned().Turned()));
    }

    [Fact]
    public void Lone_cells_can_be_left_out_and_heads_made_one()
    {
        var shape = Shapes.Text("AB.\nA.B");
        Assert.Equal("A..\nA..\n", Shapes.Written(shape.WithoutLoneCells()));
        Assert.Equal("BB.\nB.B\n", Shapes.Written(shape.WorkedBy(Head.B)));
    }
}
