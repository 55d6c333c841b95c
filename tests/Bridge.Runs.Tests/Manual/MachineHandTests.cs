using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class MachineHandTests
{
    [Fact]
    public async Task Connecting_moves_nothing_and_a_reference_brings_it_to_idle()
    {
        using var rig = await HandRig.Connected();
        Assert.Equal(MachineState.Aborted, rig.Hand.Status?.State);
        Assert.False(rig.Gantry.DriversAreOn);
        Assert.True(await rig.Hand.ReferenceAsync(), rig.Hand.Trouble);
        Assert.Equal(MachineState.Idle, rig.Hand.Status?.State);
        Assert.True(rig.Gantry.DriversAreOn);
        Assert.Null(rig.Hand.Trouble);
        Assert.True(await rig.Hand.ReferenceAsync(), rig.Hand.Trouble); // from Idle too
        Assert.True(await rig.Hand.StopAsync(), rig.Hand.Trouble);
        Assert.Equal(MachineState.Stopped, rig.Hand.Status?.State);
        Assert.True(await rig.Hand.ReferenceAsync(), rig.Hand.Trouble); // and from Stopped
    }

    [Fact]
    public async Task A_machine_that_was_not_taken_over_is_left_as_it_is()
    {
        using var first = await HandRig.Referenced();
        var other = new MachineHand(first.Device, Examples.Plotter);
        Assert.True(await other.StopAsync());
        Assert.Equal(MachineState.Idle, other.Status?.State);
    }

    [Fact]
    public async Task A_hand_that_was_told_to_end_before_it_referenced_switches_nothing_on_and_moves_nothing()
    {
        using var rig = await HandRig.Connected();
        rig.Hand.Interrupt();
        Assert.False(await rig.Hand.ReferenceAsync());
        Assert.Equal("It was stopped before it looked for its zero.", rig.Hand.Trouble);
        Assert.Equal(MachineState.Aborted, rig.Hand.Status?.State);
        Assert.False(rig.Gantry.DriversAreOn);
    }

    [Fact]
    public async Task Nothing_is_referenced_before_it_is_connected_to()
    {
        using var rig = new HandRig();
        Assert.False(await rig.Hand.ReferenceAsync());
        Assert.Equal("The device is not connected.", rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_pressed_e_stop_refuses_the_reference_and_says_why()
    {
        using var rig = await HandRig.Connected();
        rig.Gantry.PressEStop();
        Assert.False(await rig.Hand.ReferenceAsync());
        Assert.Equal("The device refused Clear: the cause is still there.", rig.Hand.Trouble);
        Assert.False(rig.Gantry.DriversAreOn);
    }

    [Fact]
    public async Task An_e_stop_in_a_reference_ends_it_with_what_to_do()
    {
        using var rig = await HandRig.Connected();
        rig.After(0.3, () => rig.Gantry.PressEStop());
        Assert.False(await rig.Hand.ReferenceAsync());
        Assert.Equal("The machine is Aborted (motors off): the e-stop is pressed or its wire is cut. "
            + "See why it was pressed, make the machine safe, then release it.", rig.Hand.Trouble);
    }

    [Fact]
    public async Task An_interrupted_reference_is_a_controlled_stop_with_the_motors_on()
    {
        using var rig = await HandRig.Connected();
        rig.After(0.3, rig.Hand.Interrupt);
        Assert.False(await rig.Hand.ReferenceAsync());
        Assert.Equal("It was stopped while it looked for its zero.", rig.Hand.Trouble);
        Assert.True(rig.Hand.IsInterrupted);
        Assert.Equal(MachineState.Stopped, rig.Hand.Status?.State);
        Assert.Empty(rig.Line.Bursts);
    }

    [Fact]
    public async Task A_second_interrupt_says_stop_and_the_motors_go_off()
    {
        using var rig = await HandRig.Referenced();
        rig.Hand.Interrupt();
        await rig.Hand.LookAsync(TimeSpan.FromMilliseconds(100));
        Assert.Equal(MachineState.Idle, rig.Hand.Status?.State);
        rig.Hand.Interrupt();
        await rig.Hand.LookAsync(TimeSpan.FromMilliseconds(20));
        Assert.False(rig.Gantry.DriversAreOn);
        await rig.Hand.LookAsync(TimeSpan.FromMilliseconds(500)); // it is asked how it is in a session of its own
        Assert.Equal((MachineState.Aborted, StateCause.StopOctets), (rig.Hand.Status?.State, rig.Hand.Status?.Cause));
    }

    [Fact]
    public async Task Stop_that_is_asked_more_than_once_leaves_the_motors_on_and_Abort_switches_them_off()
    {
        using var rig = await HandRig.Referenced();
        rig.Hand.Rest(MachineCommand.Unhold);
        Assert.False(rig.Hand.IsInterrupted);
        rig.Hand.Rest(MachineCommand.Hold);
        rig.Hand.Rest(MachineCommand.Stop);
        rig.Hand.Rest(MachineCommand.Stop);
        await rig.Hand.LookAsync(TimeSpan.FromMilliseconds(500));
        Assert.True(rig.Hand.IsInterrupted && rig.Gantry.DriversAreOn);
        rig.Hand.Rest(MachineCommand.Abort);
        await rig.Hand.LookAsync(TimeSpan.FromMilliseconds(100));
        Assert.False(rig.Gantry.DriversAreOn);
    }

    [Fact]
    public async Task A_search_that_nobody_wants_any_more_ends_with_the_motors_off()
    {
        using var rig = await HandRig.Connected();
        var until = rig.Time.Now + TimeSpan.FromSeconds(0.3);
        Assert.False(await rig.Hand.ReferenceAsync(() => rig.Time.Now < until));
        Assert.Equal("It was stopped while it looked for its zero.", rig.Hand.Trouble);
        Assert.False(rig.Gantry.DriversAreOn);
        Assert.InRange(rig.Time.Now - until, TimeSpan.Zero, TimeSpan.FromSeconds(0.2));
    }

    [Fact]
    public async Task Steps_that_a_carriage_slipped_by_are_found_at_the_next_reference()
    {
        using var rig = await HandRig.Referenced();
        Assert.Empty((await rig.Hand.LostStepsAsync())!); // where it stood before was not known
        rig.Gantry.Slip(AxisName.X, -16);
        Assert.True(await rig.Hand.ReferenceAsync(), rig.Hand.Trouble);
        var lost = (await rig.Hand.LostStepsAsync())!;
        Assert.Equal([AxisName.X, AxisName.Y], lost.Select(axis => axis.Axis));
        Assert.InRange(lost[0].Steps, 15, 17);
        Assert.Equal(lost[0].Steps / 80.0, lost[0].Mm, 1e-9);
        Assert.InRange(lost[1].Steps, -1, 1);
    }

    [Theory]
    [InlineData(AxisName.X)]
    [InlineData(AxisName.Y)]
    public async Task One_axis_moves_up_while_it_is_held_and_then_rests(AxisName axis)
    {
        using var rig = await HandRig.Referenced();
        var other = axis == AxisName.X ? rig.Gantry.Y : rig.Gantry.X;
        var (before, otherBefore) = (rig.Gantry.Axis(axis)!.PlaceMm, other.PlaceMm);
        var until = rig.Time.Now + TimeSpan.FromSeconds(1);
        await rig.Hand.JogAsync(axis, isUp: true, () => rig.Time.Now < until);
        var after = rig.Gantry.Axis(axis)!.PlaceMm;
        var moved = axis == AxisName.X ? Examples.Plotter.X : Examples.Plotter.Y;
        var speed = Math.Min(moved.ReferenceSpeedMmS, moved.AccelMmS2 / 64); // it slows down within 1/64 s (SPEC section 10)
        Assert.InRange(after - before, 0.95 * speed, 1.05 * speed); // for a second
        Assert.Equal(otherBefore, other.PlaceMm);
        await rig.Device.PassAsync(TimeSpan.FromSeconds(1));
        Assert.Equal(after, rig.Gantry.Axis(axis)!.PlaceMm);
    }

    [Fact]
    public async Task A_jog_that_is_interrupted_ends_though_the_key_is_held()
    {
        using var rig = await HandRig.Referenced();
        rig.After(0.5, rig.Hand.Interrupt);
        var start = rig.Time.Now;
        await rig.Hand.JogAsync(AxisName.X, isUp: true, () => true);
        Assert.InRange((rig.Time.Now - start).TotalSeconds, 0.5, 0.8);
    }

    [Fact]
    public async Task An_axis_moves_down_again()
    {
        using var rig = await HandRig.Referenced();
        var until = rig.Time.Now + TimeSpan.FromSeconds(1);
        await rig.Hand.JogAsync(AxisName.X, isUp: true, () => rig.Time.Now < until);
        var top = rig.Gantry.X.PlaceMm;
        until = rig.Time.Now + TimeSpan.FromSeconds(0.5);
        await rig.Hand.JogAsync(AxisName.X, isUp: false, () => rig.Time.Now < until);
        Assert.InRange(top - rig.Gantry.X.PlaceMm, 2, 8);
        Assert.Null(rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_jog_that_nobody_holds_moves_nothing_and_takes_no_longer_than_a_rest()
    {
        using var rig = await HandRig.Referenced();
        var (place, start) = (rig.Gantry.X.PlaceMm, rig.Time.Now);
        await rig.Hand.JogAsync(AxisName.X, isUp: true, () => false);
        Assert.Equal(place, rig.Gantry.X.PlaceMm);
        Assert.InRange((rig.Time.Now - start).TotalSeconds, 0.1, 0.15);
    }
}
