using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class DeviceTroubleTests
{
    [Fact]
    public void A_device_that_never_answers_ends_the_run_in_the_answers_time_out()
    {
        using var rig = Rig.OfSmallJob(faults: new MockFaults { IsSilent = true });
        Assert.Equal(RunOutcome.NoAnswer, rig.ToEnd().Outcome);
        Assert.InRange(rig.Time.Now, ScriptedRig.Answer, ScriptedRig.Answer + TimeSpan.FromMilliseconds(20));
    }

    [Fact]
    public void A_host_that_is_kept_from_listening_for_longer_than_an_answer_may_take_does_not_find_its_device_silent()
    {
        using var rig = Rig.OfSmallJob();
        var stalls = 0;
        rig.Line.AfterReading = () =>
        {
            var homing = rig.Device.State is MachineState.Clearing or MachineState.Resetting; // silence ends that, rightly
            if (!homing && stalls++ % 5 == 0)
                rig.Time.AdvanceTo(rig.Time.Now + Examples.Gantry.TimeOuts.Answer + TimeSpan.FromSeconds(1));
        };
        rig.EachTurn(_ =>
        {
            if (rig.Run.End is null && rig.Device.State == MachineState.Held)
                rig.Run.Request(MachineCommand.Unhold); // it holds each time: the line was silent
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        rig.HasWorkedAll();
    }

    [Fact]
    public void A_device_that_answers_Hello_alone_ends_the_run()
    {
        var rig = new ScriptedRig(script: device => device.Says = _ => null);
        Assert.Equal(RunOutcome.NoAnswer, rig.ToEnd().Outcome);
        Assert.Equal(ScriptedRig.Answer, rig.Time.Now);
        Assert.Empty(rig.Device.Commands);
    }

    [Fact]
    public void A_device_of_another_wire_version_is_refused_with_both_versions()
    {
        var rig = new ScriptedRig(script: device => device.Version = 9);
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Contains("version 9", end.Words);
        Assert.Contains("No record was sent", end.Words);
    }

    [Theory]
    [InlineData(MessageType.SetMachine, 0, Answer.WrongWidth)]
    [InlineData(MessageType.SetAxis, 0, Answer.SpeedTooHigh)]
    [InlineData(MessageType.SetAxis, 2, Answer.BadValue)]
    [InlineData(MessageType.SetHead, 0, Answer.UnknownMessage)]
    [InlineData(MessageType.SetHead, 1, Answer.BadValue)]
    [InlineData(MessageType.Command, 0, Answer.CausePresent)] // Clear
    [InlineData(MessageType.Command, 1, Answer.NoSetup)] // Reset
    [InlineData(MessageType.Begin, 0, Answer.WrongState)]
    [InlineData(MessageType.Command, 2, Answer.NotReferenced)] // Start
    public void A_device_that_refuses_any_message_before_the_work_ends_the_run_and_says_why(MessageType refused, int which, Answer answer)
    {
        var rig = new ScriptedRig(script: device => device.Refuses = (type, before) => (type, before) == (refused, which) ? answer : null);
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Contains(StateWords.Of(answer), end.Words);
        Assert.Contains(rig.Device.State, new[] { MachineState.Aborted, MachineState.Stopped });
        Assert.True(end.WhatToDo.Length > 0);
    }

    [Theory]
    [InlineData(MachineState.Execute)]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Suspended)]
    public void A_device_that_is_busy_is_left_alone(MachineState state)
    {
        var rig = new ScriptedRig(script: device => (device.State, device.RunId) = (state, 99));
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Contains(state.ToString(), end.Words);
        Assert.Empty(rig.Device.Commands);
        Assert.Null(rig.Run.StartedAt); // what is under way there is not this run
    }

    [Theory]
    [InlineData(MachineCommand.Clear, MachineState.Aborted, StateCause.EStop, RunOutcome.Aborted)]
    [InlineData(MachineCommand.Reset, MachineState.Stopped, StateCause.LineSilent, RunOutcome.Stopped)]
    public void A_machine_that_comes_out_of_an_order_otherwise_than_it_was_to_ends_the_run_with_its_cause(
        MachineCommand order, MachineState state, StateCause cause, RunOutcome outcome)
    {
        var rig = new ScriptedRig();
        rig.Device.Says = status =>
        {
            if (rig.Device.Commands is [.., var last] && last == order)
                (rig.Device.State, rig.Device.Cause) = (state, cause);
            return status with { State = rig.Device.State, Cause = rig.Device.Cause };
        };
        var end = rig.ToEnd();
        Assert.Equal((outcome, order), (end.Outcome, rig.Device.Commands[^1]));
        Assert.Contains(StateWords.Of(cause), end.Words);
    }

    [Fact]
    public void A_run_that_a_device_still_holds_is_ended_for_this_one_only_where_that_was_asked_for()
    {
        var rig = new ScriptedRig(Rig.Settings with { EndsHeldRun = true }, device => (device.State, device.RunId) = (MachineState.Held, 99));
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal([MachineCommand.Stop, MachineCommand.Reset, MachineCommand.Start], rig.Device.Commands);
    }

    [Theory]
    [InlineData(MachineState.Idle)]
    [InlineData(MachineState.Complete)]
    [InlineData(MachineState.Stopped)]
    public void A_device_that_is_at_rest_is_taken_from_there_and_does_not_move_before_it_knows_the_machine(MachineState state)
    {
        var rig = new ScriptedRig(script: device => (device.State, device.RunId) = (state, 99));
        var setUp = false;
        rig.Device.Heard = type =>
        {
            setUp |= type == MessageType.SetHead;
            Assert.False(rig.Device.Commands.Contains(MachineCommand.Reset) && !setUp);
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal(state != MachineState.Stopped, rig.Device.Commands[0] == MachineCommand.Stop);
    }

    [Fact]
    public async Task A_second_run_follows_a_first_on_the_same_device()
    {
        using var rig = Rig.OfSmallJob();
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        var settings = Rig.Settings with { RunId = 8, Token = 0x1111 };
        var run = new RunController(ProvedJob.Of(Examples.SmallJob, Examples.Gantry), settings, new MemoryJournal(), new Onlooker());
        using var line = rig.Port.Open();
        Assert.Equal(RunOutcome.Complete, (await RunLoop.RunAsync(run, line, rig.Time)).Outcome);
        Assert.Equal(2 * rig.Cells.Count, rig.Device.Gantry.CellsWorked);
    }

    [Fact]
    public async Task A_token_that_the_device_has_in_use_is_replaced_by_another()
    {
        using var rig = Rig.OfSmallJob();
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        var run = new RunController(ProvedJob.Of(Examples.SmallJob, Examples.Gantry), Rig.Settings with { RunId = 8 }, new MemoryJournal(), new Onlooker());
        using var line = rig.Port.Open();
        Assert.Equal(RunOutcome.Complete, (await RunLoop.RunAsync(run, line, rig.Time)).Outcome);
    }

    [Fact]
    public void A_device_that_resets_itself_in_mid_run_loses_the_line_and_the_records_in_doubt_are_counted()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                rig.Device.Reset();
        };
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.LineLost, end.Outcome);
        Assert.Contains("0 of 11 records are known to be done", end.Words);
        Assert.Contains("the next 11 records, which were sent, is not known", end.Words);
        Assert.DoesNotContain(MachineCommand.Start, rig.Device.Commands[3..]);
    }

    [Fact]
    public void A_device_that_falls_silent_in_mid_run_loses_the_line_in_the_answers_time_out()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        rig.Watcher.OnState = state => rig.Device.IsDead = state == MachineState.Execute;
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.LineLost, end.Outcome);
        Assert.Contains("e-stop", end.WhatToDo);
        Assert.InRange(rig.Time.Now - rig.Watcher.TimeOf(MachineState.Execute), ScriptedRig.Answer / 2, ScriptedRig.Answer + TimeSpan.FromMilliseconds(20));
    }

    [Fact]
    public void A_cut_cable_at_any_cell_ends_the_run_and_the_machine_holds_by_itself()
    {
        for (var cell = 1; cell <= 40; cell += 3)
        {
            using var rig = Rig.OfSmallJob(faults: new MockFaults { CutAt = cell });
            var end = rig.ToEnd();
            Assert.Equal(RunOutcome.LineLost, end.Outcome);
            Assert.Contains("the line was cut", end.Words);
            rig.Port.LetPass(TimeSpan.FromMinutes(1));
            Assert.Equal(MachineState.Held, rig.Device.State);
            Assert.True(rig.Run.Worked.Counts.A + rig.Run.Worked.Counts.B <= rig.Device.Gantry.CellsWorked);
        }
    }

    [Fact]
    public void A_line_that_is_closed_before_anything_was_heard_is_no_answer()
    {
        var rig = new ScriptedRig(script: device => device.ClosedBecause = "unplugged");
        Assert.Equal(RunOutcome.NoAnswer, rig.ToEnd().Outcome);
    }

    [Theory]
    [InlineData(0, Answer.IndexMismatch)]
    [InlineData(0, Answer.BadRecord)]
    [InlineData(1, Answer.IndexMismatch)]
    [InlineData(1, Answer.QueueOverrun)]
    [InlineData(2, Answer.BeyondRun)]
    [InlineData(2, Answer.BadValue)]
    public void Records_refused_in_mid_run_end_it_with_a_controlled_stop_and_the_end_says_so(int message, Answer answer)
    {
        var rig = new ScriptedRig(queue: 4, script: device =>
            device.Refuses = (type, before) => type == MessageType.Records && before >= message ? answer : null);
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Contains(StateWords.Of(answer), end.Words);
        Assert.Equal(MachineCommand.Stop, rig.Device.Commands[^1]);
        Assert.Equal(MachineState.Stopped, rig.Device.State);
    }

    [Fact]
    public void Records_swallowed_without_a_word_end_the_run_too()
    {
        var rig = new ScriptedRig(queue: 4, script: device =>
            device.Refuses = (type, before) => type == MessageType.Records && before == 1 ? Answer.Accepted : null);
        Assert.Equal(RunOutcome.Refused, rig.ToEnd().Outcome);
        Assert.Equal(MachineState.Stopped, rig.Device.State);
    }

    [Fact]
    public void A_run_that_the_device_ends_because_of_a_bad_record_names_that_cause_and_not_the_records_it_refused_after()
    {
        var rig = new ScriptedRig(queue: 4, script: device =>
        {
            device.Refuses = (type, before) => type == MessageType.Records && before > 0 ? Answer.NoRun : null;
            device.Heard = type =>
            {
                if (type == MessageType.Command && device.State == MachineState.Execute)
                    device.Enter(MachineState.Stopping, StateCause.BadRecord);
                if (type == MessageType.Records && device.State == MachineState.Stopping)
                    device.Enter(MachineState.Stopped, StateCause.BadRecord);
            };
        });
        var stopped = false;
        rig.Line.EachTurn = _ =>
        {
            if (!stopped && rig.Run.Progress.State == MachineState.Stopping)
                rig.Device.Enter(MachineState.Stopped, StateCause.BadRecord);
            stopped |= rig.Run.Progress.State == MachineState.Stopping;
        };
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Stopped, end.Outcome);
        Assert.Contains(StateWords.Of(StateCause.BadRecord), end.Words);
    }

    [Fact]
    public void A_device_that_says_complete_too_early_is_not_believed()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                rig.Device.Enter(MachineState.Complete, StateCause.JobComplete);
        };
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Stopped, end.Outcome);
        Assert.Contains("0 of 11 records are done", end.Words);
    }

    [Fact]
    public void A_device_that_never_comes_to_an_end_of_referencing_is_stopped()
    {
        var rig = new ScriptedRig();
        rig.Device.Heard = type =>
        {
            if (type == MessageType.Command && rig.Device.Commands[^1] == MachineCommand.Reset)
                rig.Device.Enter(MachineState.Resetting, StateCause.Operator);
        };
        rig.Device.Says = status => rig.Device.Commands is [.., MachineCommand.Reset] ? status with { State = MachineState.Resetting } : status;
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Contains("Idle", end.Words);
        Assert.Equal(MachineCommand.Stop, rig.Device.Commands[^1]);
    }

    [Fact]
    public void A_machine_that_stops_by_itself_while_it_references_ends_the_run_at_once()
    {
        var rig = new ScriptedRig();
        rig.Device.Heard = type =>
        {
            if (type == MessageType.Command && rig.Device.Commands[^1] == MachineCommand.Reset)
                rig.Device.Enter(MachineState.Stopped, StateCause.LineSilent);
        };
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Stopped, end.Outcome);
        Assert.Contains(StateWords.Of(StateCause.LineSilent), end.Words);
        Assert.True(rig.Time.Now < TimeSpan.FromSeconds(5));
    }

    [Fact]
    public void A_Status_of_another_run_or_an_older_one_or_the_same_twice_changes_nothing()
    {
        var rig = new ScriptedRig(queue: 4);
        Status? first = null;
        var least = new RunProgress();
        rig.Device.Heard = type =>
        {
            if (type != MessageType.Records || rig.Device.State == MachineState.Idle)
                return;
            first ??= rig.Device.Status;
            rig.Device.Say(rig.Device.Status with { RunId = 99, State = MachineState.Complete, RecordsDone = 0, RecordsTaken = 0 });
            rig.Device.Say(rig.Device.Status with { RunId = 0, State = MachineState.Aborted });
            rig.Device.Say(first.Value);
            rig.Device.Say(rig.Device.Status);
            rig.Device.Say(rig.Device.Status);
        };
        rig.Line.EachTurn = _ =>
        {
            Assert.True(rig.Run.Progress.Records >= least.Records && rig.Run.Progress.Cells >= least.Cells);
            least = rig.Run.Progress;
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.DoesNotContain(rig.Watcher.States, seen => seen is { State: MachineState.Aborted, Cause: not StateCause.PowerOn });
        Assert.Equal(11, rig.Run.Progress.Records);
    }

    [Fact]
    public void A_device_that_counts_records_that_were_never_sent_is_not_believed_and_stopped()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        rig.Device.Says = status => status.State == MachineState.Execute
            ? status with { RecordsTaken = 500, RecordsDone = 500, RecordsLimit = 600 } : status;
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Equal(0, rig.Run.Worked.Counts.A);
    }
}
