using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class WaitTests
{
    private static readonly JobFile Job = Examples.Job(Examples.Gantry,
        Record.Row(RecordWidth.Four, Head.A, new Cell(1, 1), 0, 2),
        Record.WaitForOperator(),
        Record.WaitForOperator(),
        Record.Row(RecordWidth.Four, Head.A, new Cell(1, 3), 0, 2),
        Record.End);

    [Fact]
    public void A_wait_for_the_operator_lasts_until_the_operator_goes_on()
    {
        using var rig = new Rig(Examples.Gantry, Job);
        var letGo = TimeSpan.FromMinutes(1);
        rig.Once(() => rig.Time.Now >= letGo, () => rig.Run.Request(MachineCommand.Unhold));
        rig.Once(() => rig.Time.Now >= 2 * letGo, () => rig.Run.Request(MachineCommand.Unhold));
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.True(rig.Time.Now >= 2 * letGo);
        Assert.Equal(2, rig.Watcher.Words.Count(words => words.Contains("waits for you", StringComparison.Ordinal)));
        rig.HasWorkedAll();
    }

    [Fact]
    public void With_nobody_there_a_dry_run_goes_on_at_once()
    {
        using var rig = new Rig(Examples.Gantry, Job, settings: Rig.Settings with { GoesOnAtWaits = true });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Empty(rig.Watcher.Words);
        rig.HasWorkedAll();
    }

    [Fact]
    public void Waits_in_a_row_are_all_gone_on_from_even_if_nothing_is_heard_of_what_was_between_them()
    {
        var rig = new ScriptedRig(Rig.Settings with { GoesOnAtWaits = true }, device => device.Executes = false);
        rig.Device.Says = status =>
        {
            if (status.State != MachineState.Execute)
                return status;
            if (rig.Device.Commands.Count(command => command == MachineCommand.Unhold) < 3)
                (rig.Device.State, rig.Device.Cause) = (MachineState.Held, StateCause.OperatorWait);
            else
                (rig.Device.State, rig.Device.Done) = (MachineState.Complete, rig.Device.Count);
            return rig.Device.Status;
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal(1, rig.Watcher.States.Count(seen => seen.State == MachineState.Held));
    }

    [Fact]
    public void An_operators_Hold_lasts_even_where_waits_are_gone_on_from()
    {
        using var rig = new Rig(Examples.Gantry, Job, settings: Rig.Settings with { GoesOnAtWaits = true });
        var letGo = TimeSpan.FromMinutes(1);
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Holding && rig.Time.Now < letGo)
                rig.Run.Request(MachineCommand.Hold);
        };
        rig.Once(() => rig.Time.Now >= letGo, () => rig.Run.Request(MachineCommand.Unhold));
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.True(rig.Time.Now >= letGo);
    }

    [Fact]
    public void A_machine_held_longer_than_the_patience_is_stopped_just_then()
    {
        var patience = TimeSpan.FromSeconds(30);
        using var rig = new Rig(Examples.Gantry, Job, settings: Rig.Settings with { HeldPatience = patience });
        var end = rig.ToEnd();
        Assert.Equal((RunOutcome.HeldTooLong, MachineState.Stopped), (end.Outcome, rig.Device.State));
        Assert.Contains("waits for the operator", end.Words);
        var held = rig.Watcher.TimeOf(MachineState.Held);
        Assert.InRange(rig.Watcher.TimeOf(MachineState.Stopping) - held, patience, patience + TimeSpan.FromMilliseconds(20));
        rig.HasWorkedAPart();
    }

    [Fact]
    public void A_Hold_before_the_start_counts_for_the_patience_too()
    {
        using var rig = new Rig(Examples.Gantry, Job, settings: Rig.Settings with { HeldPatience = TimeSpan.FromSeconds(10) });
        rig.Run.Request(MachineCommand.Hold);
        Assert.Equal(RunOutcome.HeldTooLong, rig.ToEnd().Outcome);
        Assert.Empty(rig.Device.Gantry.Worked);
    }

    [Fact]
    public void A_run_is_asked_for_no_other_command()
    {
        using var rig = Rig.OfSmallJob();
        Assert.Throws<ArgumentOutOfRangeException>(() => rig.Run.Request(MachineCommand.Reset));
    }
}
