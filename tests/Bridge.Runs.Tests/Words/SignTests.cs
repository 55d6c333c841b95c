using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class SignTests
{
    [Fact]
    public void Each_state_has_its_sign_whatever_its_cause_but_where_the_cause_makes_the_difference()
    {
        foreach (var state in Enum.GetValues<MachineState>())
            foreach (var cause in Enum.GetValues<StateCause>())
                Assert.Equal((state, cause, Expected(state, cause)), (state, cause, Signs.Of(state, cause)));
    }

    // Clause 10.3.2 of IEC 60204-1 (from memory): red emergency, yellow abnormal, green normal, blue mandatory, white neutral.
    private static Sign Expected(MachineState state, StateCause cause)
    {
        if (state == MachineState.Aborted)
            return cause == StateCause.PowerOn ? Sign.Neutral : Sign.Emergency;
        if (state == MachineState.Held && new[] { StateCause.Operator, StateCause.OperatorWait }.Contains(cause))
            return Sign.Action;
        var signs = new Dictionary<MachineState, Sign> { [MachineState.Aborting] = Sign.Emergency };
        foreach (var abnormal in "Holding Held Suspending Suspended Stopping".Split(' '))
            signs[Enum.Parse<MachineState>(abnormal)] = Sign.Abnormal;
        foreach (var normal in "Starting Execute Unholding Unsuspending Completing Complete".Split(' '))
            signs[Enum.Parse<MachineState>(normal)] = Sign.Normal;
        return signs.GetValueOrDefault(state, Sign.Neutral);
    }
}
