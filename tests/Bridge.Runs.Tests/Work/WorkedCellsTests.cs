using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class WorkedCellsTests
{
    private static readonly Grid Grid = new(5, 3, 4);

    [Fact]
    public void A_cell_is_worked_where_when_and_by_whom_it_was_and_nowhere_else()
    {
        var worked = Of((new Cell(4, 2), 1, Head.B));
        for (var layer = 0; layer < Grid.Layers; layer++)
            for (var y = 0; y < Grid.Y; y++)
                for (var x = 0; x < Grid.X; x++)
                {
                    var isIt = (x, y, layer) == (4, 2, 1);
                    Assert.Equal((isIt, false, isIt), (worked.Has(new Cell(x, y), layer), worked.Has(new Cell(x, y), layer, Head.A),
                        worked.Has(new Cell(x, y), layer, Head.B)));
                }
    }

    [Fact]
    public void A_cell_that_is_worked_twice_counts_twice_and_each_head_for_itself()
    {
        var worked = Of((new Cell(0, 0), 0, Head.A), (new Cell(0, 0), 0, Head.A), (new Cell(0, 0), 0, Head.B), (new Cell(1, 0), 3, Head.A));
        Assert.Equal((3, 1), worked.Counts);
        Assert.Equal([0, 3], worked.Layers);
        Assert.True(worked.Has(new Cell(0, 0), 0, Head.A) && worked.Has(new Cell(0, 0), 0, Head.B));
    }

    [Fact]
    public void Layers_come_lowest_first_whatever_was_worked_first() =>
        Assert.Equal([0, 2, 3], Of((new Cell(0, 0), 3, Head.A), (new Cell(0, 0), 0, Head.A), (new Cell(0, 0), 2, Head.A)).Layers);

    [Fact]
    public void Sets_differ_in_each_cell_that_is_in_one_alone_or_was_worked_by_another_head()
    {
        var one = Of((new Cell(0, 0), 0, Head.A), (new Cell(1, 0), 0, Head.A), (new Cell(4, 2), 0, Head.A), (new Cell(2, 1), 1, Head.B));
        var other = Of((new Cell(0, 0), 0, Head.A), (new Cell(1, 0), 0, Head.B), (new Cell(2, 1), 3, Head.B));
        Assert.Equal((4, 4), (one.CountDifferences(other), other.CountDifferences(one)));
        Assert.Equal([2, 1, 0, 1], Enumerable.Range(0, 4).Select(layer => one.CountDifferences(other, layer)));
        Assert.Equal((0, 0), (one.CountDifferences(one), new WorkedCells(Grid).CountDifferences(new WorkedCells(Grid))));
        Assert.True(one.IsSame(other, new Cell(0, 0), 0));
        Assert.False(one.IsSame(other, new Cell(1, 0), 0));
        Assert.False(one.IsSame(other, new Cell(4, 2), 0));
        Assert.True(one.IsSame(other, new Cell(3, 2), 2));
    }

    [Fact]
    public void What_lies_beyond_another_set_is_counted_by_head()
    {
        var one = Of((new Cell(0, 0), 0, Head.A), (new Cell(0, 0), 0, Head.B), (new Cell(4, 2), 0, Head.A), (new Cell(2, 1), 1, Head.A),
            (new Cell(2, 1), 1, Head.B));
        var other = Of((new Cell(0, 0), 0, Head.A), (new Cell(3, 0), 2, Head.A));
        Assert.Equal((4, 1), (one.CountBeyond(other), other.CountBeyond(one)));
        Assert.Equal(0, one.CountBeyond(one));
    }

    [Fact]
    public void Beyond_another_set_on_one_layer_only_what_a_third_has_is_counted()
    {
        var one = Of((new Cell(0, 0), 1, Head.A), (new Cell(4, 2), 1, Head.A), (new Cell(4, 2), 1, Head.B), (new Cell(1, 1), 0, Head.A));
        var other = Of((new Cell(0, 0), 1, Head.A));
        Assert.Equal(2, one.CountBeyond(other, 1, (_, _) => true));
        Assert.Equal(1, one.CountBeyond(other, 1, (cell, head) => cell == new Cell(4, 2) && head == Head.B));
        Assert.Equal(0, one.CountBeyond(other, 1, (_, _) => false));
        Assert.Equal(0, one.CountBeyond(other, 2, (_, _) => true));
    }

    [Fact]
    public void The_cells_of_an_image_are_those_that_its_records_work()
    {
        var worked = WorkedCells.Of(Examples.TinyJob.Image, Examples.TinyJob.Grid);
        Assert.Equal((4, 2), worked.Counts);
        Assert.True(worked.Has(new Cell(2, 2), 0, Head.A) && worked.Has(new Cell(3, 3), 0, Head.A));
        Assert.True(worked.Has(new Cell(5, 2), 0, Head.B) && worked.Has(new Cell(5, 3), 0, Head.B));
    }

    private static WorkedCells Of(params (Cell Cell, int Layer, Head Head)[] cells)
    {
        var worked = new WorkedCells(Grid);
        foreach (var (cell, layer, head) in cells)
            worked.Add(cell, layer, head);
        return worked;
    }
}
