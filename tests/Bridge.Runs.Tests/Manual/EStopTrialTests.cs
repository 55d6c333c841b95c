using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class EStopTrialTests
{
    private static readonly TimeSpan AtMost = TimeSpan.FromSeconds(10);

    private readonly List<string> _told = [];

    [Fact]
    public async Task An_e_stop_that_is_pressed_and_released_is_seen_and_nothing_moves()
    {
        using var rig = await HandRig.Connected();
        rig.After(1, () => rig.Gantry.PressEStop());
        rig.After(3, () => rig.Gantry.ReleaseEStop());
        Assert.True(await Run(rig));
        Assert.Equal(3, _told.Count);
        Assert.StartsWith("Press the e-stop now", _told[0]);
        Assert.StartsWith("Seen open.", _told[1]);
        Assert.Equal("Seen closed again.", _told[2]);
        Assert.InRange(rig.Time.Now.TotalSeconds, 3.3, 3.8); // steady for 0.3 s
        Assert.False(rig.Gantry.DriversAreOn);
    }

    [Fact]
    public async Task A_contact_that_never_opens_is_told_with_where_to_look()
    {
        using var rig = await HandRig.Connected();
        Assert.False(await Run(rig));
        Assert.Equal("The contact never opened. Is it wired to the board? safety/WIRING.md shows how. Nothing was started.", _told[^1]);
        Assert.InRange(rig.Time.Now, AtMost, AtMost + TimeSpan.FromSeconds(1));
    }

    [Fact]
    public async Task A_contact_that_does_not_stay_closed_is_told()
    {
        using var rig = await HandRig.Connected();
        rig.After(1, () => rig.Gantry.PressEStop());
        for (var time = 2.0; time < 15; time += 0.4)
        {
            rig.After(time, () => rig.Gantry.ReleaseEStop());
            rig.After(time + 0.2, () => rig.Gantry.PressEStop());
        }

        Assert.False(await Run(rig));
        Assert.Equal("The contact did not close and stay closed. Nothing was started.", _told[^1]);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_trial_that_is_given_up_ends_at_once(bool isPressed)
    {
        using var rig = await HandRig.Connected();
        if (isPressed)
            rig.Gantry.PressEStop();
        Assert.False(await Run(rig, () => rig.Time.Now < TimeSpan.FromSeconds(2)));
        Assert.Equal("Given up. Nothing was started.", _told[^1]);
        Assert.InRange(rig.Time.Now.TotalSeconds, 2, 2.1);
    }

    [Theory]
    [InlineData(MachineState.Aborted, StateCause.PowerOn, false, true, true)]
    [InlineData(MachineState.Aborted, StateCause.Watchdog, false, true, true)]
    [InlineData(MachineState.Aborted, StateCause.StopOctets, false, true, false)]
    [InlineData(MachineState.Aborted, StateCause.StopOctets, false, false, true)]
    [InlineData(MachineState.Aborted, StateCause.EStop, true, true, true)]
    [InlineData(MachineState.Aborted, StateCause.EStop, false, true, false)]
    [InlineData(MachineState.Aborted, StateCause.EStop, false, false, true)]
    [InlineData(MachineState.Held, StateCause.Operator, false, false, false)]
    [InlineData(MachineState.Suspended, StateCause.Starved, false, false, false)]
    [InlineData(MachineState.Idle, StateCause.Operator, false, false, true)]
    [InlineData(MachineState.Idle, StateCause.Operator, false, true, false)]
    public async Task It_is_asked_for_after_power_on_and_once_a_day_but_never_of_a_held_run(
        MachineState state, StateCause cause, bool isOpen, bool wasTriedToday, bool isNeeded)
    {
        using var rig = await HandRig.Connected();
        var status = rig.Hand.Status!.Value with { State = state, Cause = cause, Inputs = isOpen ? BoardInputs.EStopOpen : BoardInputs.None };
        Assert.Equal(isNeeded, EStopTrial.IsNeeded(status, wasTriedToday));
    }

    private Task<bool> Run(HandRig rig, Func<bool>? goesOn = null) => EStopTrial.RunAsync(rig.Device, _told.Add, AtMost, goesOn ?? (() => true));
}
