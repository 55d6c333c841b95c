using Bridge.Jobs;

namespace Bridge.Motion.Tests;

public class BacklashTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    private static Machine With(AxisEnd xEnd, HeadTool head) => TestMachines.Of(head,
        x: TestMachines.Axis(backlash: 0.5, endstop: xEnd), y: TestMachines.Axis(backlash: 0.2));

    [Fact] // 2·√(0.5/200) = 0.1 s.
    public void Play_is_taken_up_before_the_axis_that_turns_moves_back()
    {
        var acts = TestMachines.ActsOf(With(AxisEnd.Min, TestMachines.Dot()), Record.Go(Head.A, new Cell(5, 5)), Record.Go(Head.A, new Cell(2, 7)));
        Assert.Equal([ActKind.IdleMove, ActKind.TakeUp, ActKind.IdleMove], acts.Select(act => act.Kind));
        Assert.Equal(0.1, acts[1].Seconds, 12);
        Assert.Equal(acts[1].From, acts[1].To);
        Assert.Equal(0, acts[1].TravelMm);
    }

    [Fact]
    public void Axes_that_turn_together_take_up_their_play_together()
    {
        var acts = TestMachines.ActsOf(With(AxisEnd.Min, TestMachines.Dot()), Record.Go(Head.A, new Cell(5, 5)), Record.Go(Head.A, new Cell(2, 2)));
        Assert.Equal([ActKind.IdleMove, ActKind.TakeUp, ActKind.IdleMove], acts.Select(act => act.Kind));
        Assert.Equal(Math.Sqrt(0.25 + 0.04), acts[1].Profile.DistanceMm, 12);
    }

    [Fact]
    public void After_referencing_at_the_far_end_the_axis_has_moved_towards_zero() =>
        Assert.Equal([ActKind.TakeUp, ActKind.IdleMove],
            TestMachines.ActsOf(With(AxisEnd.Max, TestMachines.Dot()), Record.Go(Head.A, new Cell(5, 0))).Select(act => act.Kind));

    [Fact]
    public void A_patch_takes_up_play_at_each_turn_of_its_rows_with_the_pen_down() =>
        Assert.Equal([0, 1, 2, 1, 0, 2, 1, 0, 2, 0],
            TestMachines.ActsOf(With(AxisEnd.Min, TestMachines.Pen()), Record.Patch(Head.A, new Cell(0, 0), 3, 3, PatchWay.AlongX))
                .Select(act => act.Cells));
}
