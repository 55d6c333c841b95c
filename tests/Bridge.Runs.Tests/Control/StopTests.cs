using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class StopTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Stop_at_any_cell_ends_stopped_and_the_record_says_just_what_was_worked(int times)
    {
        for (var cell = 1; cell <= 40; cell += times)
        {
            using var rig = Rig.OfSmallJob();
            var at = cell;
            rig.AtCell(worked =>
            {
                for (var time = 0; worked == at && time < times; time++)
                    rig.Run.Request(MachineCommand.Stop);
            });
            Assert.Equal((RunOutcome.Stopped, MachineState.Stopped), (rig.ToEnd().Outcome, rig.Device.State));
            rig.HasWorkedAPart();
            Assert.InRange(rig.Device.Gantry.CellsWorked, cell, cell + 2);
            Assert.Equal(("End", "Stopped"), (rig.Journal.Entries[^1].Kind.ToString(), rig.Journal.Entries[^1].Outcome));
        }
    }

    [Fact]
    public void Stop_asked_at_any_turn_of_the_beginning_leaves_a_machine_at_rest_that_worked_nothing()
    {
        for (var turn = 0; turn < 80; turn++)
        {
            using var rig = Rig.OfSmallJob();
            var asked = turn;
            rig.EachTurn(now =>
            {
                if (now == asked)
                    rig.Run.Request(MachineCommand.Stop);
            });
            Assert.Equal(RunOutcome.Stopped, rig.ToEnd().Outcome);
            Assert.Empty(rig.Device.Gantry.Worked);
            rig.Port.LetPass(TimeSpan.FromSeconds(1));
            Assert.Contains(rig.Device.State, new[] { MachineState.Aborted, MachineState.Stopped });
            rig.StaysSo();
        }
    }

    [Theory]
    [InlineData(MachineState.Clearing)]
    [InlineData(MachineState.Stopped)]
    [InlineData(MachineState.Resetting)]
    [InlineData(MachineState.Idle)]
    [InlineData(MachineState.Starting)]
    [InlineData(MachineState.Execute)]
    public void Stop_asked_in_any_state_ends_stopped(MachineState state)
    {
        using var rig = Rig.OfSmallJob();
        rig.Watcher.OnState = entered =>
        {
            if (entered == state)
                rig.Run.Request(MachineCommand.Stop);
        };
        Assert.Equal((RunOutcome.Stopped, MachineState.Stopped), (rig.ToEnd().Outcome, rig.Device.State));
        rig.StaysSo();
    }

    [Fact]
    public void Stop_asked_of_a_held_machine_ends_stopped_and_a_Hold_after_it_changes_nothing()
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(cell => Ask(rig.Run, cell == 7, MachineCommand.Hold));
        rig.Watcher.OnState = state => Ask(rig.Run, state == MachineState.Held, MachineCommand.Stop, MachineCommand.Hold, MachineCommand.Unhold);
        Assert.Equal((RunOutcome.Stopped, MachineState.Stopped), (rig.ToEnd().Outcome, rig.Device.State));
        rig.HasWorkedAPart();
    }

    [Fact]
    public void A_machine_that_does_not_stop_in_time_is_stopped_at_once()
    {
        var rig = new ScriptedRig(script: device =>
        {
            device.Executes = false;
            device.Refuses = (type, before) => type == MessageType.Command && before > 2 ? Answer.WrongState : null;
        });
        rig.Watcher.OnState = state => Ask(rig.Run, state == MachineState.Execute, MachineCommand.Stop);
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        var asked = rig.Watcher.TimeOf(MachineState.Execute);
        Assert.InRange(rig.Device.Stops[0] - asked, ScriptedRig.StopPatience, ScriptedRig.StopPatience + TimeSpan.FromMilliseconds(100));
    }

    [Fact]
    public void A_machine_that_stood_still_when_last_heard_of_has_not_stopped_before_it_answers()
    {
        var rig = new ScriptedRig(script: device => device.State = MachineState.Stopped);
        var silence = TimeSpan.FromSeconds(1);
        TimeSpan? toldToReset = null;
        rig.Device.Says = status => rig.Time.Now < toldToReset + silence ? null : status;
        rig.Device.Refuses = (type, _) =>
        {
            if (type != MessageType.Command || toldToReset is not null)
                return null;
            toldToReset = rig.Time.Now; // it does so, and says nothing
            rig.Run.Request(MachineCommand.Stop);
            return null;
        };
        Assert.Equal((RunOutcome.Stopped, MachineState.Stopped), (rig.ToEnd().Outcome, rig.Device.State));
        Assert.Equal([MachineCommand.Reset, MachineCommand.Stop], rig.Device.Commands);
        Assert.True(rig.Time.Now >= toldToReset + silence);
    }

    [Fact]
    public void A_second_Stop_gives_the_machine_no_more_time()
    {
        var rig = new ScriptedRig(script: device =>
        {
            device.Executes = false;
            device.Refuses = (type, before) => type == MessageType.Command && before > 2 ? Answer.WrongState : null;
        });
        var asked = TimeSpan.Zero;
        rig.Watcher.OnState = state => Ask(rig.Run, state == MachineState.Execute, MachineCommand.Stop);
        rig.Line.EachTurn = _ =>
        {
            asked = asked == default && rig.Device.State == MachineState.Execute ? rig.Time.Now : asked;
            Ask(rig.Run, asked != default && rig.Time.Now > asked + ScriptedRig.StopPatience / 2 && rig.Device.Stops.Count == 0, MachineCommand.Stop);
        };
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.InRange(rig.Device.Stops[0] - asked, ScriptedRig.StopPatience, ScriptedRig.StopPatience + TimeSpan.FromMilliseconds(100));
    }

    [Fact]
    public void A_dot_that_takes_longer_than_the_patience_is_not_cut_off_by_a_Stop()
    {
        var slow = Examples.Gantry with { A = new HeadTool.Dot(TimeSpan.FromSeconds(30), 0, 0) };
        using var rig = new Rig(slow, Examples.Job(slow, Record.Row(RecordWidth.Four, Head.A, new Cell(2, 2), 0, 4), Record.End));
        rig.AtCell(cell => Ask(rig.Run, cell == 2, MachineCommand.Stop));
        Assert.Equal((RunOutcome.Stopped, MachineState.Stopped), (rig.ToEnd().Outcome, rig.Device.State));
        rig.HasWorkedAPart();
    }

    private static void Ask(RunController run, bool now, params MachineCommand[] commands)
    {
        foreach (var command in commands.Where(_ => now))
            run.Request(command);
    }
}
