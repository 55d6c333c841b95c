using Bridge.Jobs;

namespace Bridge.Motion.Tests;

public class DotActsTests
{
    private static readonly RecordWidth N = RecordWidth.Four;
    private static readonly Machine Gantry = TestMachines.Of(TestMachines.Dot(), x: TestMachines.Axis(pitch: 5));

    [Fact] // One cell of 5 mm: 2·√(5/200) = 0.316228 s; each dot 0.5 s.
    public void A_row_stops_at_each_cell_for_its_dot()
    {
        var acts = TestMachines.ActsOf(Gantry, Record.Row(N, Head.A, new Cell(0, 0), 0, 4));
        Assert.Equal([ActKind.WorkDots, ActKind.WorkDots], acts.Select(act => act.Kind));
        Assert.Equal([1, 3], acts.Select(act => act.Cells));
        Assert.Equal(0.5, acts[0].Seconds, 12);
        Assert.Equal(3 * (0.316228 + 0.5), acts[1].Seconds, 5);
        Assert.Equal(2 * (0.316228 + 0.5), acts[1].SecondsAtCell(2), 5);
        Assert.Equal(15, acts[1].TravelMm, 12);
    }

    [Fact]
    public void A_row_is_followed_from_cell_to_cell()
    {
        var act = TestMachines.ActsOf(Gantry, Record.Row(N, Head.A, new Cell(0, 0), 0, 4))[1];
        Assert.Equal(new Place(0, 0, 0), act.PlaceAt(0));
        Assert.Equal(2.5, act.PlaceAt(Math.Sqrt(5.0 / 200)).XMm, 9);
        Assert.Equal(5, act.PlaceAt(0.6).XMm, 9);
        Assert.Equal(5, act.PlaceAt(0.8).XMm, 9);
        Assert.Equal(15, act.PlaceAt(9).XMm, 9);
    }

    [Fact] // (0,0) to (5,2): 2·2 - 5 = -1, so straight; then 3: diagonal; -3: straight; 1: diagonal; -5: straight.
    public void A_slanting_line_goes_by_runs_of_equal_steps()
    {
        var acts = TestMachines.ActsOf(Gantry, Record.Line(Head.A, new Cell(5, 2)));
        Assert.Equal([1, 1, 1, 1, 1], acts.Select(act => act.Cells));
        Assert.Equal([new(5, 0, 0), new(10, 10, 0), new(15, 10, 0), new(20, 20, 0), new Place(25, 20, 0)], acts.Select(act => act.To));
    }

    [Fact]
    public void A_dot_head_changes_with_a_dwell_and_its_offset_is_moved()
    {
        var machine = TestMachines.Of(TestMachines.Dot(), TestMachines.Dot(x: -10));
        var acts = TestMachines.ActsOf(machine, Record.Go(Head.B, new Cell(0, 0)), Record.Go(Head.B, new Cell(0, 0)));
        Assert.Equal([ActKind.ChangeHead, ActKind.IdleMove], acts.Select(act => act.Kind));
        Assert.Equal(new Place(10, 0, 0), acts[1].To);
    }

    [Fact]
    public void A_wait_takes_its_tenths_and_waiting_for_the_operator_none()
    {
        var acts = TestMachines.ActsOf(Gantry, Record.Wait(N, 25), Record.WaitForOperator());
        Assert.Equal([ActKind.Wait, ActKind.HoldForOperator], acts.Select(act => act.Kind));
        Assert.Equal([2.5, 0], acts.Select(act => act.Seconds));
    }
}
