using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class StateWordsTests
{
    [Fact]
    public void Every_state_says_what_the_machine_does_and_no_two_but_those_that_go_on_say_the_same()
    {
        var states = Enum.GetValues<MachineState>().Where(StateTable.IsDefined).ToList();
        Assert.Equal(17, states.Count);
        Assert.All(states, state => Assert.NotEqual(StateWords.Of(MachineState.Undefined), StateWords.Of(state)));
        Assert.Equal(16, states.Select(StateWords.Of).Distinct().Count());
    }

    [Fact]
    public void Every_cause_but_none_has_words_of_its_own()
    {
        var causes = Enum.GetValues<StateCause>().Where(cause => cause != StateCause.None).ToList();
        Assert.All(causes, cause => Assert.NotEmpty(StateWords.Of(cause)));
        Assert.Equal(causes.Count, causes.Select(StateWords.Of).Distinct().Count());
        Assert.Empty(StateWords.Of(StateCause.None));
    }

    [Fact]
    public void Every_cause_that_a_person_must_see_to_says_what_to_do() =>
        Assert.All(
            Enum.GetValues<StateCause>().Except([StateCause.None, StateCause.PowerOn, StateCause.Operator, StateCause.StopOctets, StateCause.JobComplete]),
            cause => Assert.NotEmpty(StateWords.WhatToDo(cause)));

    [Fact]
    public void Every_answer_has_words_of_its_own()
    {
        var answers = Enum.GetValues<Answer>();
        Assert.Equal(answers.Length, answers.Select(StateWords.Of).Distinct().Count());
        Assert.Equal("accepted", StateWords.Of(Answer.Accepted));
    }

    [Theory]
    [InlineData(MachineState.Clearing, "abort")]
    [InlineData(MachineState.Stopped, "rest")]
    [InlineData(MachineState.Starting, "starting")]
    [InlineData(MachineState.Idle, "ready")]
    [InlineData(MachineState.Suspended, "waiting")]
    [InlineData(MachineState.Execute, "working")]
    [InlineData(MachineState.Stopping, "to a stop")]
    [InlineData(MachineState.Aborting, "motors off")]
    [InlineData(MachineState.Aborted, "motors off")]
    [InlineData(MachineState.Holding, "rest after the present cell")]
    [InlineData(MachineState.Held, "can go on")]
    [InlineData(MachineState.Unholding, "going on")]
    [InlineData(MachineState.Suspending, "out of records")]
    [InlineData(MachineState.Unsuspending, "going on")]
    [InlineData(MachineState.Resetting, "zero")]
    [InlineData(MachineState.Completing, "closing")]
    [InlineData(MachineState.Complete, "complete")]
    [InlineData(MachineState.Undefined, "unknown")]
    public void A_state_says_whether_the_machine_moves_waits_or_has_let_go_of_its_motors(MachineState state, string meaning) =>
        Assert.Contains(meaning, StateWords.Of(state));

    [Theory]
    [InlineData(StateCause.PowerOn, "switched on")]
    [InlineData(StateCause.Operator, "told to")]
    [InlineData(StateCause.EStop, "e-stop")]
    [InlineData(StateCause.StopOctets, "stop at once")]
    [InlineData(StateCause.EndstopHit, "endstop")]
    [InlineData(StateCause.LostReference, "where it is")]
    [InlineData(StateCause.LineSilent, "heard nothing")]
    [InlineData(StateCause.Starved, "in time")]
    [InlineData(StateCause.BadRecord, "record")]
    [InlineData(StateCause.ReferenceFailed, "axis")]
    [InlineData(StateCause.JobComplete, "done")]
    [InlineData(StateCause.Watchdog, "hung")]
    [InlineData(StateCause.HostRestarted, "program")]
    [InlineData(StateCause.OperatorWait, "operator")]
    [InlineData(StateCause.FirmwareFault, "fault")]
    [InlineData(StateCause.StoreBlank, "none is stored")]
    [InlineData(StateCause.StoreDamaged, "damaged")]
    [InlineData(StateCause.StoreForeign, "another machine")]
    public void A_cause_says_what_brought_the_machine_into_its_state(StateCause cause, string meaning) =>
        Assert.Contains(meaning, StateWords.Of(cause));

    [Theory]
    [InlineData(StateCause.EStop, "release it")]
    [InlineData(StateCause.EndstopHit, "in the way")]
    [InlineData(StateCause.LostReference, "loose belt")]
    [InlineData(StateCause.LineSilent, "cable")]
    [InlineData(StateCause.Starved, "load")]
    [InlineData(StateCause.HostRestarted, "no other program")]
    [InlineData(StateCause.ReferenceFailed, "endstop of each axis")]
    [InlineData(StateCause.BadRecord, "run folder")]
    [InlineData(StateCause.FirmwareFault, "firmware's version")]
    [InlineData(StateCause.Watchdog, "firmware's version")]
    [InlineData(StateCause.StoreBlank, "bridge store")]
    [InlineData(StateCause.StoreDamaged, "bridge store")]
    [InlineData(StateCause.StoreForeign, "bridge store")]
    [InlineData(StateCause.OperatorWait, "waits for")]
    public void A_person_is_sent_to_where_the_cause_can_be_found(StateCause cause, string where) =>
        Assert.Contains(where, StateWords.WhatToDo(cause));

    [Theory]
    [InlineData(StateCause.None)]
    [InlineData(StateCause.PowerOn)]
    [InlineData(StateCause.Operator)]
    [InlineData(StateCause.StopOctets)]
    [InlineData(StateCause.JobComplete)]
    public void Nobody_is_sent_to_look_for_what_was_wanted(StateCause cause) => Assert.Empty(StateWords.WhatToDo(cause));

    [Theory]
    [InlineData(Answer.UnknownMessage, "older than this program")]
    [InlineData(Answer.BadValue, "outside its range")]
    [InlineData(Answer.WrongState, "state")]
    [InlineData(Answer.NoSetup, "the machine")]
    [InlineData(Answer.WrongWidth, "width")]
    [InlineData(Answer.SpeedTooHigh, "top_speed_mm_s")]
    [InlineData(Answer.CausePresent, "still there")]
    [InlineData(Answer.NotReferenced, "referenced")]
    [InlineData(Answer.NoRun, "no run")]
    [InlineData(Answer.IndexMismatch, "missing or doubled")]
    [InlineData(Answer.QueueOverrun, "full")]
    [InlineData(Answer.BeyondRun, "fewer")]
    [InlineData(Answer.BadRecord, "cannot be done")]
    [InlineData(Answer.StoreBusy, "being written")]
    [InlineData(Answer.StoreFull, "too small")]
    [InlineData(Answer.StoreBlank, "no job")]
    [InlineData(Answer.StoreDamaged, "damaged")]
    [InlineData(Answer.StoreForeign, "another machine")]
    public void An_answer_says_why_the_device_refused(Answer answer, string meaning) => Assert.Contains(meaning, StateWords.Of(answer));
}
