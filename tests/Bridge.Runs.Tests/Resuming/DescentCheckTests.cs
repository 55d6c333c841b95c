using Bridge.Jobs;

namespace Bridge.Runs.Tests;

/// <summary>A head that finds its zero over what was built would drive into it: that is refused.</summary>
public class DescentCheckTests
{
    [Fact]
    public void Nothing_built_is_in_no_ones_way() => Assert.Null(DescentCheck.FirstInTheWay(Examples.Gantry, new WorkedCells(Examples.Gantry.Grid)));

    [Theory]
    [InlineData(0, 0, Head.A)]
    [InlineData(0, 0, Head.B)]
    [InlineData(1, 1, Head.A)] // beside the way: a head is wider than its tip
    [InlineData(1, 0, Head.B)]
    [InlineData(0, 15, Head.A)] // the corner at the endstops: that of Y is at the far edge
    [InlineData(0, 8, Head.A)] // between the two
    public void What_is_built_where_the_head_comes_down_is_named(int x, int y, Head head)
    {
        var worked = Built(Examples.Gantry, new Cell(x, y), head);
        Assert.Equal((new Cell(x, y), 3), DescentCheck.FirstInTheWay(Examples.Gantry, worked));
    }

    [Theory]
    [InlineData(2, 0)]
    [InlineData(2, 15)]
    [InlineData(8, 8)]
    public void What_is_built_away_from_it_is_not(int x, int y) =>
        Assert.Null(DescentCheck.FirstInTheWay(Examples.Gantry, Built(Examples.Gantry, new Cell(x, y), Head.A)));

    [Fact]
    public void With_endstops_of_X_and_Y_beyond_the_last_cells_and_Z_s_below_the_head_crosses_the_whole_grid()
    {
        var farAway = Examples.Gantry with { X = AtTheFarEnd(Examples.Gantry.X), Y = AtTheFarEnd(Examples.Gantry.Y) };
        var inTheMiddle = new Cell(8, 8);
        Assert.Equal((inTheMiddle, 3), DescentCheck.FirstInTheWay(farAway, Built(farAway, inTheMiddle, Head.A)));
        var fromAbove = farAway with { Z = AtTheFarEnd(farAway.Z!) };
        Assert.Null(DescentCheck.FirstInTheWay(fromAbove, Built(fromAbove, inTheMiddle, Head.A)));
    }

    [Fact]
    public void What_is_drawn_stands_in_no_ones_way() =>
        Assert.Null(DescentCheck.FirstInTheWay(Examples.Plotter, Built(Examples.Plotter, new Cell(0, 0), Head.A, layer: 0)));

    private static Axis AtTheFarEnd(Axis axis) => axis with { Endstop = AxisEnd.Max };

    private static WorkedCells Built(Machine machine, Cell cell, Head head, int layer = 3)
    {
        var worked = new WorkedCells(machine.Grid);
        worked.Add(cell, layer, head);
        return worked;
    }
}
