using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class OperatorStartTests
{
    private static readonly RunSettings Awaiting = Rig.Settings with { AwaitsStart = true };
    private static readonly TimeSpan Later = TimeSpan.FromMinutes(1);

    [Fact]
    public void A_run_that_awaits_its_start_is_ready_and_stays_at_rest_until_it_is_asked()
    {
        using var rig = Rig.OfSmallJob(Awaiting);
        rig.EachTurn(_ => Assert.True(rig.Time.Now >= Later || rig.Device.Gantry.CellsWorked == 0));
        rig.Once(() => rig.Time.Now >= Later, () =>
        {
            Assert.Equal((MachineState.Idle, true), (rig.Run.Progress.State, rig.Run.Progress.AwaitsStart));
            rig.Run.Request(MachineCommand.Start);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Contains(rig.Watcher.States, seen => seen is { State: MachineState.Idle, AwaitsStart: true });
        Assert.DoesNotContain(rig.Watcher.States, seen => seen is { State: not MachineState.Idle, AwaitsStart: true });
        rig.HasWorkedAll();
    }

    [Fact]
    public void A_start_asked_at_any_turn_before_the_run_is_ready_starts_nothing()
    {
        var turns = 0;
        for (var at = 0; at <= turns; at++)
        {
            using var rig = Rig.OfSmallJob(Awaiting with { HeldPatience = TimeSpan.FromSeconds(10) });
            var asked = at;
            rig.EachTurn(turn =>
            {
                if (rig.Run.Progress.AwaitsStart)
                    return;
                turns = Math.Max(turns, turn);
                if (turn == asked)
                    rig.Run.Request(MachineCommand.Start);
            });
            Assert.Equal(RunOutcome.HeldTooLong, rig.ToEnd().Outcome);
            Assert.Empty(rig.Device.Gantry.Worked);
        }

        Assert.True(turns > 5);
    }

    [Fact]
    public void A_hold_takes_the_readiness_away_and_a_start_under_it_is_forgotten()
    {
        using var rig = Rig.OfSmallJob(Awaiting);
        var (held, gone) = (Later, 2 * Later);
        rig.Once(() => rig.Run.Progress.AwaitsStart, () => rig.Run.Request(MachineCommand.Hold));
        rig.Once(() => rig.Time.Now >= held, () =>
        {
            Assert.Equal((false, true), (rig.Run.Progress.AwaitsStart, rig.Run.Progress.IsHeldBack));
            rig.Run.Request(MachineCommand.Start);
        });
        rig.Once(() => rig.Time.Now >= gone, () => rig.Run.Request(MachineCommand.Unhold));
        rig.Once(() => rig.Time.Now >= gone + Later, () =>
        {
            Assert.Equal((0, true), (rig.Device.Gantry.CellsWorked, rig.Run.Progress.AwaitsStart));
            Assert.False(rig.Run.Progress.IsHeldBack);
            rig.Run.Request(MachineCommand.Start);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
    }

    [Fact]
    public void A_hold_that_is_asked_for_while_the_zero_is_looked_for_keeps_what_comes_after_back()
    {
        using var rig = Rig.OfSmallJob();
        rig.Once(() => rig.Run.Progress.State == MachineState.Resetting, () => rig.Run.Request(MachineCommand.Hold));
        rig.EachTurn(_ => Assert.False(rig.Run.Progress is { State: MachineState.Resetting, IsHeldBack: true }));
        rig.Once(() => rig.Time.Now >= Later, () =>
        {
            Assert.Equal((MachineState.Idle, true), (rig.Run.Progress.State, rig.Run.Progress.IsHeldBack));
            rig.Run.Request(MachineCommand.Unhold);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.DoesNotContain(rig.Watcher.States, seen => seen is { State: MachineState.Execute, IsHeldBack: true });
        rig.HasWorkedAll();
    }

    [Theory]
    [InlineData(MachineCommand.Stop, RunOutcome.Stopped, MachineState.Stopped)]
    [InlineData(MachineCommand.Abort, RunOutcome.Aborted, MachineState.Aborted)]
    public void A_run_that_awaits_its_start_can_be_stopped(MachineCommand command, RunOutcome outcome, MachineState state)
    {
        using var rig = Rig.OfSmallJob(Awaiting);
        rig.Once(() => rig.Run.Progress.AwaitsStart, () => rig.Run.Request(command));
        Assert.Equal((outcome, state), (rig.ToEnd().Outcome, rig.Device.State));
        Assert.False(rig.Watcher.States[^1].AwaitsStart);
        Assert.Empty(rig.Device.Gantry.Worked);
    }

    [Fact]
    public void A_stop_is_not_taken_back_by_going_on()
    {
        using var rig = Rig.OfSmallJob(Awaiting);
        rig.Once(() => rig.Run.Progress.AwaitsStart, () =>
        {
            rig.Run.Request(MachineCommand.Stop);
            rig.Run.Request(MachineCommand.Unhold);
        });
        Assert.Equal((RunOutcome.Stopped, MachineState.Stopped), (rig.ToEnd().Outcome, rig.Device.State));
    }

    [Fact]
    public void To_go_on_is_not_to_start()
    {
        using var rig = Rig.OfSmallJob(Awaiting);
        rig.Once(() => rig.Run.Progress.AwaitsStart, () => rig.Run.Request(MachineCommand.Unhold));
        rig.Once(() => rig.Time.Now >= Later, () =>
        {
            Assert.Equal((0, true), (rig.Device.Gantry.CellsWorked, rig.Run.Progress.AwaitsStart));
            rig.Run.Request(MachineCommand.Start);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
    }

    [Fact]
    public void A_request_wakes_a_run_that_waits()
    {
        using var rig = Rig.OfSmallJob(Awaiting);
        rig.Once(() => rig.Time.Now >= Later, () => rig.Run.Request(MachineCommand.Abort));
        var asked = TimeSpan.Zero;
        rig.Once(() => rig.Time.Now >= Later, () => asked = rig.Time.Now);
        rig.ToEnd();
        Assert.Equal(asked, rig.Line.Bursts[0]);
    }
}
