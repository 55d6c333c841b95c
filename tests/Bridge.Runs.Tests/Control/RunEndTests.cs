using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>What a person reads at the end of a run: what happened, what the machine does now, what is known of the work, what to do next.</summary>
public class RunEndTests
{
    private const string AtRest = "the machine is at rest";
    private const string GoOn = "--resume";

    [Fact]
    public void A_complete_run_is_at_rest_with_all_its_records_and_asks_nothing_of_anybody()
    {
        var end = new ScriptedRig().ToEnd();
        Says(end, RunOutcome.Complete, "executed to its end", AtRest, "11 of 11 records are done.");
        Assert.Empty(end.WhatToDo);
    }

    [Fact]
    public void A_device_that_says_complete_too_early_is_contradicted() =>
        Asks(Says(AtExecute(rig => rig.Device.Enter(MachineState.Complete, StateCause.JobComplete)),
            RunOutcome.Stopped, "not all of its records were executed", AtRest, "0 of 11 records are done."), GoOn);

    [Fact]
    public void A_run_that_was_stopped_says_why_and_how_it_can_be_gone_on_with() =>
        Asks(Says(AtExecute(rig => rig.Run.Request(MachineCommand.Stop)),
            RunOutcome.Stopped, "stopped in a controlled way (it was told to)", AtRest, "0 of 11 records are done."), "from its beginning", GoOn);

    [Fact]
    public void A_device_that_stopped_by_itself_says_first_what_to_see_to()
    {
        var end = AtExecute(rig => rig.Device.Enter(MachineState.Stopped, StateCause.EndstopHit));
        Asks(Says(end, RunOutcome.Stopped, "an endstop closed while it moved", AtRest), GoOn);
        Assert.StartsWith("Look for what is in the way", end.WhatToDo);
    }

    [Fact]
    public void A_cause_without_words_leaves_no_empty_brackets()
    {
        var end = AtExecute(rig => rig.Device.Enter(MachineState.Stopped, StateCause.None));
        Assert.Contains("controlled way; the machine", end.Words);
        Assert.StartsWith("When the machine is ready", end.WhatToDo);
    }

    [Fact]
    public void A_run_that_was_stopped_before_it_began_says_that_nothing_was_started()
    {
        var rig = new ScriptedRig();
        rig.Run.Request(MachineCommand.Stop);
        Asks(Says(rig.ToEnd(), RunOutcome.Stopped, "stopped before anything was started; the machine was not set going. No record was sent."),
            "from its beginning");
    }

    [Fact]
    public void An_abort_says_that_the_motors_are_off() =>
        Asks(Says(AtExecute(rig => rig.Device.Enter(MachineState.Aborted, StateCause.EStop)),
            RunOutcome.Aborted, "motors are off (the e-stop is pressed or its wire is cut)", "0 of 11 records are done. The cell after that may have been"),
            "release it", GoOn);

    [Fact]
    public void A_STOP_that_nobody_confirms_sends_the_person_to_the_e_stop() =>
        Asks(Says(AtExecute(rig =>
        {
            rig.Device.IsDead = true;
            rig.Run.Request(MachineCommand.Abort);
        }), RunOutcome.LineLost, "told again and again to stop at once", "not known whether it has stopped: it did not say so in time."), "Press the e-stop");

    [Theory]
    [InlineData(MessageType.SetMachine, 0, "the machine's setup")]
    [InlineData(MessageType.SetAxis, 0, "the setup of axis X")]
    [InlineData(MessageType.SetAxis, 1, "the setup of axis Y")]
    [InlineData(MessageType.SetAxis, 2, "the setup of axis Z")]
    [InlineData(MessageType.SetHead, 0, "the setup of head a")]
    [InlineData(MessageType.SetHead, 1, "the setup of head b")]
    [InlineData(MessageType.Command, 0, "the command Clear")]
    [InlineData(MessageType.Begin, 0, "the run")]
    public void What_a_device_refused_is_named(MessageType type, int which, string what)
    {
        var rig = new ScriptedRig(script: device => device.Refuses = (heard, before) => (heard, before) == (type, which) ? Answer.BadValue : null);
        Asks(Says(rig.ToEnd(), RunOutcome.Refused, $"refused {what}: a value is outside its range.", "is at rest"), "the machine file");
    }

    [Theory]
    [InlineData(MessageType.SetMachine, 0, "the machine's setup")]
    [InlineData(MessageType.SetAxis, 2, "the setup of axis Z")]
    [InlineData(MessageType.SetHead, 1, "the setup of head b")]
    [InlineData(MessageType.Begin, 0, "the run")]
    [InlineData(MessageType.Command, 2, "the command Start")]
    public void What_a_device_did_not_answer_is_named(MessageType type, int which, string what)
    {
        var isMute = false; // it tells all but its answer to that message
        var rig = new ScriptedRig(script: device =>
        {
            device.Executes = false;
            device.Refuses = (heard, before) =>
            {
                isMute = (heard, before) == (type, which);
                return null;
            };
            device.Says = status => isMute ? status with { AnswerNumber = (byte)(status.AnswerNumber - 1) } : status;
        });
        Asks(Says(rig.ToEnd(), RunOutcome.NoAnswer, $"is there but did not answer {what}; the machine is at rest."), "firmware");
    }

    [Fact]
    public void A_cause_that_is_still_there_sends_the_person_to_the_e_stop()
    {
        var rig = new ScriptedRig(script: device => device.Refuses = (type, _) => type == MessageType.Command ? Answer.CausePresent : null);
        Asks(Says(rig.ToEnd(), RunOutcome.Refused, "the command Clear: the cause is still there"), "Release the e-stop", "cut wire");
    }

    [Fact]
    public void Records_that_were_not_taken_stop_the_run_and_ask_for_its_folder()
    {
        var rig = new ScriptedRig(queue: 4);
        rig.Device.Refuses = (type, before) => type == MessageType.Records && before > 1 ? Answer.QueueOverrun : null;
        Asks(Says(rig.ToEnd(), RunOutcome.Refused, "did not take records as they were sent (its queue is full)", "so the run was stopped", AtRest),
            "keep the run folder");
    }

    [Fact]
    public void Records_that_went_missing_without_a_word_leave_no_empty_brackets()
    {
        var rig = new ScriptedRig(queue: 4);
        rig.Device.Refuses = (type, before) => type == MessageType.Records && before == 1 ? Answer.Accepted : null;
        Assert.Contains("as they were sent, so the run was stopped", rig.ToEnd().Words);
    }

    [Fact]
    public void A_busy_device_is_named_with_its_state_and_left_alone()
    {
        var rig = new ScriptedRig(script: device => (device.State, device.RunId) = (MachineState.Held, 99));
        Asks(Says(rig.ToEnd(), RunOutcome.Refused, "busy with another run: it is Held (held; the run can go on)", "given no command",
            "holds when a program connects"),
            GoOn, "--end-held");
    }

    [Fact]
    public void A_device_that_never_answered_sends_the_person_to_power_cable_port_and_baud_rate() =>
        Asks(Says(new ScriptedRig(script: device => device.IsDead = true).ToEnd(), RunOutcome.NoAnswer, "never answered; nothing was started",
            "No record was sent."),
            "power", "cable", "port", "baud");

    [Fact]
    public void A_device_of_another_version_is_named_with_both()
    {
        var rig = new ScriptedRig(script: device => device.Version = 9);
        Asks(Says(rig.ToEnd(), RunOutcome.Refused, "version 9 of the wire", $"program version {Hello.CurrentVersion};", "nothing was started"), "same version");
    }

    [Fact]
    public void A_machine_that_took_too_long_to_find_its_zero_is_told_with_the_limit()
    {
        var rig = new ScriptedRig();
        rig.Device.Says = status => rig.Device.Commands is [.., MachineCommand.Reset] ? status with { State = MachineState.Resetting } : status;
        Asks(Says(rig.ToEnd(), RunOutcome.Refused, "not Idle (referenced and ready) within 182 s", "at rest"), "endstops", "reference_seconds");
    }

    [Fact]
    public void A_lost_line_says_what_the_machine_does_by_itself_and_how_much_is_in_doubt() =>
        Asks(Says(AtExecute(rig => rig.Device.ClosedBecause = "the cable is out"), RunOutcome.LineLost, "was lost: the cable is out.", "holds",
            "0 of 11 records are known to be done", "the next 11 records, which were sent, is not known."), "press the e-stop", "cable", GoOn);

    [Fact]
    public void A_device_that_fell_silent_is_a_lost_line() =>
        Says(AtExecute(rig => rig.Device.IsDead = true), RunOutcome.LineLost, "the device no longer answers");

    [Fact]
    public void Cells_of_a_record_that_was_begun_are_told_one_and_several()
    {
        foreach (var (cells, words) in new[] { (1u, "1 cell"), (2u, "2 cells") })
            Assert.EndsWith($"0 of 11 records and {words} of the next are done.", AtExecute(rig =>
            {
                rig.Device.Cells = cells;
                rig.Device.Enter(MachineState.Stopped, StateCause.LineSilent);
            }).Words);
    }

    [Fact]
    public void One_record_in_doubt_is_told_as_one() => Assert.Contains("what became of the next 1 record, which", AtExecute(rig =>
    {
        rig.Device.Done = 10;
        rig.Device.Enter(MachineState.Execute, StateCause.Operator);
        rig.Device.ClosedBecause = "the cable is out";
    }).Words);

    [Fact]
    public void A_journal_that_cannot_be_begun_starts_nothing()
    {
        var rig = new ScriptedRig();
        rig.Journal.Fails = (_, _) => true;
        Asks(Says(rig.ToEnd(), RunOutcome.JournalFailed, "could not be written (no room); nothing was started", "not set going. No record was sent."),
            "Make room", "--runs", GoOn);
    }

    [Fact]
    public void A_machine_that_held_too_long_says_why_it_held()
    {
        var end = AtExecute(rig => rig.Device.Enter(MachineState.Held, StateCause.OperatorWait), Rig.Settings with { HeldPatience = TimeSpan.FromSeconds(10) });
        Asks(Says(end, RunOutcome.HeldTooLong, "held (the job waits for the operator)", "nobody let it go on", AtRest), "Do what the job waits for.", GoOn);
    }

    [Fact]
    public void A_machine_that_was_held_for_its_journal_says_so_and_both_things_to_do()
    {
        var rig = new ScriptedRig(Rig.Settings with { HeldPatience = TimeSpan.FromSeconds(10) }, device => device.Executes = false);
        rig.Journal.Fails = (_, entry) => entry.State == nameof(MachineState.Execute) || rig.Journal.Failures > 0;
        Asks(Says(rig.ToEnd(), RunOutcome.JournalFailed, "held because the journal could not be written", "did not change in time", AtRest,
            "true up to its last entry", "(no room)"), GoOn, "Make room");
    }

    [Fact]
    public void An_end_that_the_journal_was_not_told_is_not_complete_but_an_abort_stays_one()
    {
        var complete = new ScriptedRig();
        complete.Journal.Fails = (_, entry) => entry.Kind == JournalKind.End;
        var end = complete.ToEnd();
        Says(end, RunOutcome.JournalFailed, "executed to its end", "true up to its last entry");
        Asks(end, "Make room", "Nothing is left to work", "do not go on");

        var aborted = new ScriptedRig(script: device => device.Executes = false);
        aborted.Journal.Fails = (_, entry) => entry.Kind == JournalKind.End;
        aborted.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                aborted.Device.Enter(MachineState.Aborted, StateCause.EStop);
        };
        Says(aborted.ToEnd(), RunOutcome.Aborted, "motors are off", "true up to its last entry");
    }

    private static RunEnd AtExecute(Action<ScriptedRig> act, RunSettings? settings = null)
    {
        var rig = new ScriptedRig(settings, device => device.Executes = false);
        var isDone = false;
        rig.Watcher.OnState = state =>
        {
            if (isDone || state != MachineState.Execute)
                return;
            isDone = true;
            act(rig);
        };
        return rig.ToEnd();
    }

    // Whatever the end: what happened, what the machine does, what is known of the work, what to do.
    private static RunEnd Says(RunEnd end, RunOutcome outcome, params string[] meanings)
    {
        Assert.Equal(outcome, end.Outcome);
        Assert.Matches("[Tt]he machine|it is at rest|was given no command|it does by itself", end.Words);
        Assert.Matches("No record was sent|records? .*(are done|are known to be done)|in its journal", end.Words);
        Assert.Equal(outcome == RunOutcome.Complete, end.WhatToDo.Length == 0);
        Assert.All(meanings, meaning => Assert.Contains(meaning, end.Words));
        return end;
    }

    private static void Asks(RunEnd end, params string[] actions) => Assert.All(actions, action => Assert.Contains(action, end.WhatToDo));
}
