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
}
