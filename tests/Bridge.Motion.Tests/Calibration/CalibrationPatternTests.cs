using Bridge.Jobs;

namespace Bridge.Motion.Tests;

public class CalibrationPatternTests
{
    [Theory]
    [InlineData(16, 16, true)]
    [InlineData(16, 16, false)]
    [InlineData(4, 4, true)]
    [InlineData(4, 4, false)]
    [InlineData(5, 9, true)]
    [InlineData(9, 5, true)]
    [InlineData(4, 16, true)]
    [InlineData(16, 4, true)]
    public void It_is_proved_though_no_cell_may_be_worked_twice_and_has_its_lines_and_corners(int x, int y, bool hasB)
    {
        var machine = Of(x, y, hasB);
        var image = Image.Of(machine.Width, CalibrationPattern.Of(machine));
        Assert.Empty(JobProof.Of(new JobFile(machine.Grid, machine.Digest, image), machine).Faults);

        var worked = Worked(image, machine);
        Assert.All(Enumerable.Range(0, x), at => Assert.Equal(Head.A, worked[new Cell(at, 0)]));
        Assert.All(Enumerable.Range(0, y), at => Assert.Equal(Head.A, worked[new Cell(0, at)]));
        Assert.Equal(Head.A, worked[new Cell(x - 1, y - 1)]);
        if (!hasB)
            Assert.Equal(x + y, worked.Count);
    }

    [Theory]
    [InlineData(16, 16)]
    [InlineData(4, 4)]
    [InlineData(7, 13)]
    public void A_line_each_way_goes_over_from_head_a_to_head_b(int x, int y)
    {
        var machine = Of(x, y, hasB: true);
        var worked = Worked(Image.Of(machine.Width, CalibrationPattern.Of(machine)), machine);
        var (alongY, alongX) = (CalibrationPattern.LineAlongY(machine), CalibrationPattern.LineAlongX(machine));
        Assert.True(HandsOver(Enumerable.Range(1, y - 2).Select(at => worked[new Cell(alongY, at)])));
        Assert.True(HandsOver(Enumerable.Range(x / 2, x - x / 2).Select(at => worked[new Cell(at, alongX)])));
    }

    [Fact]
    public void A_grid_without_room_for_it_is_refused()
    {
        var refused = Assert.Throws<RefusedException>(() => CalibrationPattern.Of(Of(16, 3, hasB: true)));
        Assert.Contains("at least 4", $"{refused.Refusals[0]}", StringComparison.Ordinal);
    }

    // Cells of head a, then cells of head b, some of each.
    private static bool HandsOver(IEnumerable<Head> heads) =>
        heads.Aggregate("", (all, head) => all.EndsWith($"{head}", StringComparison.Ordinal) ? all : all + head) == "AB";

    private static Dictionary<Cell, Head> Worked(Image image, Machine machine)
    {
        var worked = new Dictionary<Cell, Head>();
        var passes = new PassReader(image, machine.Grid);
        while (passes.TryNext(out var pass))
            foreach (var cell in pass.Work)
                worked.Add(cell, pass.Record.Head);
        Assert.Null(passes.Fault);
        return worked;
    }

    private static Machine Of(int x, int y, bool hasB) =>
        TestMachines.Of(TestMachines.Pen(), hasB ? TestMachines.Pen(x: -20) : null, TestMachines.Axis(x), TestMachines.Axis(y)) with { MayOverprint = false };
}
