using Bridge.Jobs;

namespace Bridge.Motion.Tests;

public class PenActsTests
{
    private static readonly RecordWidth N = RecordWidth.Four;
    private static readonly Machine Plotter = TestMachines.Of(TestMachines.Pen(), TestMachines.Pen(4), z: TestMachines.Axis(pitch: 5));

    [Fact]
    public void A_row_goes_there_lowers_the_pen_and_draws_in_one_move()
    {
        var acts = TestMachines.ActsOf(Plotter, Record.Row(N, Head.A, new Cell(1, 2), 0, 5));
        Assert.Equal([ActKind.IdleMove, ActKind.LowerPen, ActKind.WorkMove, ActKind.WorkMove, ActKind.LiftPen], acts.Select(act => act.Kind));
        Assert.Equal([0, 0, 1, 4, 0], acts.Select(act => act.Cells));
        Assert.Equal((new Place(10, 20, 0), new Place(50, 20, 0)), (acts[3].From, acts[3].To));
        Assert.Equal(acts[3].Profile.SecondsAt(10), acts[3].SecondsAtCell(1), 12);
        Assert.Equal(acts[3].Seconds, acts[3].SecondsAtCell(4), 12);
    }

    [Fact]
    public void The_pen_stays_down_for_a_record_that_starts_where_the_last_one_ended()
    {
        var acts = TestMachines.ActsOf(Plotter,
            Record.Row(N, Head.A, new Cell(0, 0), 0, 3), Record.Line(Head.A, new Cell(5, 1)), Record.Row(N, Head.A, new Cell(5, 1), 2, 2));
        Assert.Equal(
            [ActKind.LowerPen, ActKind.WorkMove, ActKind.WorkMove, ActKind.WorkMove, ActKind.WorkMove, ActKind.WorkMove, ActKind.LiftPen],
            acts.Select(act => act.Kind));
        Assert.Equal([0, 1, 2, 3, 1, 1, 0], acts.Select(act => act.Cells));
    }

    [Theory]
    [InlineData("40 00 01 21 22 00")] // go elsewhere
    [InlineData("40 00 01 51 11 01")] // a row elsewhere, then with head b
    [InlineData("40 00 01 C0 00 05")] // a wait
    [InlineData("40 00 01 C2 00 00")] // a wait for the operator
    [InlineData("40 00 01 21 10 00")] // a rise
    [InlineData("40 00 01 30 10 00")] // another head
    public void The_pen_is_lifted_before_anything_but_work_from_here(string hex)
    {
        var bytes = Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
        var reader = new ActingReader(Image.Parse(N, [.. bytes, 0, 0, 0], "test"), Plotter);
        Assert.True(reader.TryNext(out _, out var first));
        Assert.Equal(ActKind.WorkMove, first.ToList()[^1].Kind);
        Assert.True(reader.TryNext(out _, out var second));
        Assert.Equal(ActKind.LiftPen, second.ToList()[0].Kind);
    }

    [Fact]
    public void The_order_in_a_record_is_lift_rise_head_idle_lower_work()
    {
        var acts = TestMachines.ActsOf(Plotter,
            Record.Row(N, Head.A, new Cell(0, 0), 0, 1), Record.Row(N, Head.B, new Cell(3, 3), 0, 2, rise: true));
        Assert.Equal(
            [ActKind.LiftPen, ActKind.Rise, ActKind.ChangeHead, ActKind.IdleMove, ActKind.LowerPen, ActKind.WorkMove, ActKind.WorkMove, ActKind.LiftPen],
            acts.Skip(2).Select(act => act.Kind));
        Assert.Equal(new Place(0, 0, 5), acts[3].To);
        Assert.Equal(2, acts[4].Seconds);
        Assert.Equal(new Place(26, 30, 5), acts[5].To);
    }

    [Fact]
    public void A_line_with_the_pen_up_starts_at_its_first_cell()
    {
        var acts = TestMachines.ActsOf(Plotter, Record.Line(Head.A, new Cell(4, 2)));
        Assert.Equal([ActKind.IdleMove, ActKind.LowerPen, ActKind.WorkMove, ActKind.WorkMove, ActKind.LiftPen], acts.Select(act => act.Kind));
        Assert.Equal(new Place(10, 10, 0), acts[0].To); // 2·2 - 4 = 0: the tie takes the diagonal step (Bresenham, 1965)
        Assert.Equal((1, 3), (acts[2].Cells, acts[3].Cells));
        Assert.Equal((new Place(10, 10, 0), new Place(40, 20, 0)), (acts[3].From, acts[3].To));
    }

    [Fact]
    public void A_patch_is_drawn_row_by_row_and_a_line_to_where_it_stands_does_nothing()
    {
        var acts = TestMachines.ActsOf(Plotter,
            Record.Patch(Head.A, new Cell(0, 0), 3, 2, PatchWay.AlongX), Record.Line(Head.A, new Cell(0, 1)));
        Assert.Equal([0, 1, 2, 1, 2, 0], acts.Select(act => act.Cells));
        Assert.Equal(new Place(0, 10, 0), acts[4].To);
    }

    [Fact]
    public void A_patch_of_one_column_along_x_has_no_empty_moves() =>
        Assert.Equal([0, 1, 1, 1, 0], TestMachines.ActsOf(Plotter, Record.Patch(Head.A, new Cell(0, 0), 1, 3, PatchWay.AlongX)).Select(act => act.Cells));
}
