namespace Bridge.Jobs.Tests;

public class CellPathTests
{
    private static readonly Cell At = new(5, 5);

    public static TheoryData<int, int, int> Patches
    {
        get
        {
            var data = new TheoryData<int, int, int>();
            for (var way = 0; way < 8; way++)
                foreach (var (x, y) in new[] { (1, 1), (1, 4), (4, 1), (3, 4), (4, 3) })
                    data.Add(way, x, y);
            return data;
        }
    }

    [Theory, MemberData(nameof(Patches))]
    public void A_patch_works_each_cell_of_its_rectangle_once_in_single_steps_and_says_how_many(int way, int cellsX, int cellsY)
    {
        var path = CellPath.Patch(At, cellsX, cellsY, (PatchWay)way);
        var cells = new List<Cell>();
        foreach (var cell in path)
            cells.Add(cell);
        var (one, other) = path.Corners;
        Assert.Equal(cellsX * cellsY, cells.Distinct().Count());
        Assert.Equal((cells.Count, At, cells[^1]), (path.Cells, cells[0], path.Last));
        Assert.All(cells.Zip(cells.Skip(1)), pair => Assert.Equal(1, Math.Abs(pair.First.X - pair.Second.X) + Math.Abs(pair.First.Y - pair.Second.Y)));
        Assert.All(cells, cell => Assert.True(
            (cell.X - one.X) * (cell.X - other.X) <= 0 && (cell.Y - one.Y) * (cell.Y - other.Y) <= 0, $"{cell} is not between {one} and {other}."));
        Assert.Equal((cellsX - 1, cellsY - 1), (Math.Abs(one.X - other.X), Math.Abs(one.Y - other.Y)));
    }

    [Fact]
    public void A_row_a_line_and_no_work_say_how_many_cells_they_have_and_where_they_end()
    {
        var (row, line, none) = (CellPath.Row(At, 3, 4), CellPath.Line(At, new Cell(2, 6)), CellPath.None(At));
        Assert.Equal((4, new Cell(2, 8)), (row.Cells, row.Last));
        Assert.Equal((3, new Cell(2, 6)), (line.Cells, line.Last));
        Assert.Equal((0, At), (none.Cells, none.Last));
        Assert.Equal(0, CellPath.Line(At, At).Cells);
    }

    [Fact]
    public void Paths_are_equal_when_all_about_them_is()
    {
        var patch = CellPath.Patch(At, 2, 2, PatchWay.AlongX);
        Assert.True(patch == CellPath.Patch(At, 2, 2, PatchWay.AlongX));
        Assert.Equal(patch.GetHashCode(), CellPath.Patch(At, 2, 2, PatchWay.AlongX).GetHashCode());
        CellPath[] others =
        [
            CellPath.Patch(new Cell(5, 6), 2, 2, PatchWay.AlongX), CellPath.Patch(At, 3, 2, PatchWay.AlongX), CellPath.Patch(At, 2, 3, PatchWay.AlongX),
            CellPath.Patch(At, 2, 2, PatchWay.AlongY), CellPath.Line(At, new Cell(6, 6)), CellPath.Row(At, 1, 2),
        ];
        Assert.All(others, other => Assert.True(other != patch && !patch.Equals((object)other)));
        Assert.False(CellPath.Row(At, 1, 2) == CellPath.Line(At, new Cell(6, 6)));
        Assert.False(patch.Equals("a patch"));
    }
}
