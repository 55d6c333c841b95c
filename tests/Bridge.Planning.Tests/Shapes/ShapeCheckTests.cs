namespace Bridge.Planning.Tests;

public class ShapeCheckTests
{
    [Fact]
    public void Equal_shapes_do_not_differ() => Assert.True(ShapeCheck.Compare(Shapes.Text("AB\n---\n.A"), Shapes.Text("AB\n---\n.A")).IsNone);

    [Fact]
    public void Missing_extra_and_wrong_head_cells_are_named()
    {
        var difference = ShapeCheck.Compare(Shapes.Text("AAB\n---\nA.."), Shapes.Text("A.A\n---\nAB."));
        Assert.Equal((1, 1, 1, false), (difference.Missing, difference.Extra, difference.WrongHead, difference.IsNone));
        Assert.Equal(
            [
                "layer 0, cell (1, 0): wanted head a, worked empty",
                "layer 0, cell (2, 0): wanted head b, worked head a",
                "layer 1, cell (1, 0): wanted empty, worked head b",
            ],
            difference.First.Select(cell => cell.ToString()));
    }

    [Fact]
    public void Shapes_of_other_sizes_differ_only_in_worked_cells()
    {
        Assert.True(ShapeCheck.Compare(Shapes.Text("A.\n---\n.."), Shapes.Text("...\nA..")).IsNone);
        Assert.Equal(1, ShapeCheck.Compare(Shapes.Text("A"), Shapes.Text("A\n---\n---\nA")).Extra);
        Assert.Equal(1, ShapeCheck.Compare(Shapes.Text("AA"), Shapes.Text("A")).Missing);
    }

    [Fact]
    public void Every_difference_is_counted_but_only_the_first_twenty_are_named()
    {
        var difference = ShapeCheck.Compare(Shapes.Text(new string('A', 100)), Shapes.Text(new string('.', 100)));
        Assert.Equal((100, 20), (difference.Missing, difference.First.Count));
    }
}
