using Bridge.Jobs;
using Bridge.Mock;
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
        var letGo = TimeSpan.FromMinutes(5);
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
    public void Two_waits_in_a_row_on_a_bad_line_are_both_gone_on_from()
    {
        var noise = new LineNoise(Drop: 0.3);
        for (var seed = 0; seed < 20; seed++)
        {
            using var rig = new Rig(Examples.Gantry, Job, new MockFaults { ToDevice = noise, ToHost = noise }, seed, Rig.Settings with { GoesOnAtWaits = true });
            Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
            rig.HasWorkedAll();
        }
    }

    [Fact]
    public void An_operators_Hold_lasts_even_where_waits_are_gone_on_from()
    {
        using var rig = new Rig(Examples.Gantry, Job, settings: Rig.Settings with { GoesOnAtWaits = true });
        var letGo = TimeSpan.FromMinutes(5);
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
        Assert.Throws<ArgumentOutOfRangeException>(() => rig.Run.Request(MachineCommand.Start));
    }
}
