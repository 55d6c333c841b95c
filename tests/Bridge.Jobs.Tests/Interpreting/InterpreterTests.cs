using CsCheck;

namespace Bridge.Jobs.Tests;

public class InterpreterTests
{
    public static TheoryData<string> Names()
    {
        var data = new TheoryData<string>();
        foreach (var field in Vectors.Of("job/jobs.txt"))
            data.Add(field[0]);
        return data;
    }

    [Theory, MemberData(nameof(Names))]
    public void The_golden_jobs_work_the_cells_that_the_vectors_list(string name)
    {
        var field = Vectors.Of("job/jobs.txt").Single(line => line[0] == name);
        Assert.True(RecordWidth.TryFrom(int.Parse(field[1]), out var width));
        var size = field[2].Split(' ').Select(int.Parse).ToArray();
        var image = Image.Parse(width, Convert.FromHexString(field[3]), name);
        var interpreter = new Interpreter(image, new Grid(size[0], size[1], size[2]));
        var cells = new List<string>();
        while (interpreter.MoveNext())
            cells.Add($"{RecordWords.Name(interpreter.Current.Head)}:{interpreter.Current.Cell.X},{interpreter.Current.Cell.Y},{interpreter.Current.Layer}");
        Assert.Equal(field[4], interpreter.Fault is { } fault ? $"fault {fault.Rule} {fault.Index}" : "complete");
        Assert.Equal(field[5], string.Join(' ', cells));
    }

    [Fact]
    public void A_line_keeps_within_half_a_cell_of_the_ideal_and_takes_one_step_for_each_cell_of_its_longer_side()
    {
        // Properties that Bresenham (IBM Systems Journal 4(1), 1965) proves of his algorithm.
        var cell = Gen.Select(Gen.Int[0, 255], Gen.Int[0, 255], (x, y) => new Cell(x, y));
        Gen.Select(cell, cell).Sample((from, to) =>
        {
            var (dx, dy) = (to.X - from.X, to.Y - from.Y);
            var longer = Math.Max(Math.Abs(dx), Math.Abs(dy));
            var count = 0;
            var last = from;
            foreach (var at in CellPath.Line(from, to))
            {
                count++;
                var (ideal, real) = Math.Abs(dx) >= Math.Abs(dy)
                    ? ((double)dy * (at.X - from.X) / dx, at.Y - from.Y)
                    : ((double)dx * (at.Y - from.Y) / dy, at.X - from.X);
                Assert.True(Math.Abs(ideal - real) <= 0.5);
                last = at;
            }

            Assert.Equal((longer, to), (count, last));
        }, seed: "0N0XIzNsQ0O2", iter: 5_000);
    }

    [Fact]
    public void Every_patch_works_each_cell_of_its_rectangle_once_and_never_jumps()
    {
        for (var way = 0; way < 8; way++)
            for (var (cellsX, cellsY) = (1, 1); cellsX <= 5; (cellsX, cellsY) = cellsY == 5 ? (cellsX + 1, 1) : (cellsX, cellsY + 1))
            {
                var path = CellPath.Patch(new Cell(8, 8), cellsX, cellsY, (PatchWay)way);
                var cells = new List<Cell>();
                foreach (var cell in path)
                    cells.Add(cell);
                Assert.Equal(cellsX * cellsY, cells.Distinct().Count());
                Assert.Equal(path.Cells, cells.Count);
                Assert.Equal(path.Last, cells[^1]);
                Assert.All(cells.Zip(cells.Skip(1)), pair => Assert.Equal(1, Math.Abs(pair.First.X - pair.Second.X) + Math.Abs(pair.First.Y - pair.Second.Y)));
            }
    }

    [Fact]
    public void Random_bytes_complete_or_fault_and_never_leave_the_grid()
    {
        var grid = new Grid(16, 12, 5);
        Gen.Byte.Array[3, 60].Sample(bytes =>
        {
            byte[] whole = [.. bytes.Take(bytes.Length / 3 * 3)];
            Image image;
            try
            {
                image = Image.Parse(RecordWidth.Four, whole, "random");
            }
            catch (RefusedException)
            {
                return;
            }

            var interpreter = new Interpreter(image, grid);
            for (var cells = 0; cells < 100_000 && interpreter.MoveNext(); cells++)
                Assert.True(grid.Holds(interpreter.Current.Cell) && interpreter.Current.Layer < grid.Layers);
        }, seed: "0N0XIzNsQ0O2", iter: 20_000);
    }

    [Fact]
    public void A_job_that_would_never_be_done_is_stopped_at_a_bound()
    {
        var width = RecordWidth.Twelve;
        var image = Image.Of(width, [
            Record.Go(Head.A, default), Record.Go(Head.A, default), Record.Go(Head.A, default), Record.Go(Head.A, default),
            Record.Go(Head.A, default), Record.Go(Head.A, default), Record.Go(Head.A, default), Record.Again(width, 7, 1 << 24), Record.End]);
        var passes = new PassReader(image, new Grid(16, 16, 1));
        while (passes.TryNext(out _))
        {
        }

        Assert.Equal(JobRule.TooLong, passes.Fault?.Rule);
    }

    [Theory]
    [InlineData(59, false)]
    [InlineData(60, true)]
    public void A_job_that_works_more_than_a_thousand_million_cells_is_refused(int times, bool refused)
    {
        var width = RecordWidth.Twelve; // a patch of the whole grid is 16.8 million cells
        var image = Image.Of(width, [Record.Patch(Head.A, new Cell(0, 0), 4096, 4096, default), Record.Again(width, records: 1, times - 1), Record.End]);
        var passes = new PassReader(image, new Grid(4096, 4096, 1));
        while (passes.TryNext(out _))
        {
        }

        Assert.Equal(refused ? JobRule.TooLong : null, passes.Fault?.Rule);
    }
}
