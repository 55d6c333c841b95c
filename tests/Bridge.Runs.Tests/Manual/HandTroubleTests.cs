using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>A machine under a person's hand on a device that does not do as it should.</summary>
public class HandTroubleTests
{
    private static readonly References NothingLost = new() { Known = BoardAxes.X, WentUp = BoardAxes.None, X = -400, Y = 0, Z = 0 };

    private readonly VirtualTime _time = new();

    [Theory]
    [InlineData(MachineState.Aborted, new[] { MachineCommand.Clear, MachineCommand.Reset })]
    [InlineData(MachineState.Stopped, new[] { MachineCommand.Reset })]
    [InlineData(MachineState.Idle, new[] { MachineCommand.Stop, MachineCommand.Reset })]
    [InlineData(MachineState.Complete, new[] { MachineCommand.Stop, MachineCommand.Reset })]
    public async Task A_reference_takes_just_the_commands_that_lead_to_it(MachineState from, MachineCommand[] commands)
    {
        var (device, hand) = await Connected(from);
        Assert.True(await hand.ReferenceAsync(), hand.Trouble);
        Assert.Equal(commands, device.Commands);
        Assert.True(await hand.StopAsync());
        Assert.Equal(MachineCommand.Stop, device.Commands[^1]);
        Assert.Equal(commands.Length + 1, device.Commands.Count);
        Assert.True(await hand.StopAsync()); // it is Stopped
        Assert.Equal(commands.Length + 1, device.Commands.Count);
    }

    [Fact]
    public async Task A_device_with_a_run_is_told_with_what_to_do_about_it()
    {
        var (device, hand) = await Connected(MachineState.Suspended);
        Assert.False(await hand.ReferenceAsync());
        Assert.Equal("The device has a run and is Suspended (waiting for records). Go on with it by bridge run --resume, or end it there first.", hand.Trouble);
        Assert.Empty(device.Commands);
    }

    [Theory]
    [InlineData(MachineState.Idle, 0, "The device refused Stop: it is not in a state for that.")]
    [InlineData(MachineState.Aborted, 0, "The device refused Clear: it is not in a state for that.")]
    [InlineData(MachineState.Aborted, 1, "The device refused to reference its axes: it is not in a state for that.")]
    public async Task A_command_that_is_refused_on_the_way_to_the_reference_is_named(MachineState from, int which, string words)
    {
        var (device, hand) = await Connected(from);
        device.Refuses = (type, before) => type == MessageType.Command && before == which ? Answer.WrongState : null;
        Assert.False(await hand.ReferenceAsync());
        Assert.Equal(words, hand.Trouble);
        Assert.Equal(which, device.Commands.Count);
    }

    [Fact]
    public async Task A_machine_that_is_refused_its_setup_is_not_told_to_move()
    {
        var (device, hand) = await Connected(MachineState.Stopped);
        device.Refuses = (type, _) => type == MessageType.SetHead ? Answer.BadValue : null;
        Assert.False(await hand.ReferenceAsync());
        Assert.Empty(device.Commands);
    }

    [Fact]
    public async Task A_search_without_an_end_is_ended_by_STOP_and_told_with_its_limit()
    {
        var (device, hand) = await Connected(MachineState.Stopped);
        device.Says = status => device.Commands is [.., MachineCommand.Reset] && device.Stops.Count == 0
            ? status with { State = MachineState.Resetting } : status;
        Assert.False(await hand.ReferenceAsync());
        Assert.Equal("It did not find its zero within 182 s.", hand.Trouble); // three axes of 60 s, and the answer's 2 s
        Assert.NotEmpty(device.Stops);
        Assert.InRange(device.Stops[0].TotalSeconds, 182, 182.5);
    }

    [Fact]
    public async Task A_machine_that_comes_to_rest_elsewhere_is_told_with_its_state_its_cause_and_what_to_do()
    {
        var (device, hand) = await Connected(MachineState.Stopped);
        device.Heard = type =>
        {
            if (type == MessageType.Command)
                device.Enter(MachineState.Stopped, StateCause.ReferenceFailed);
        };
        device.Says = status => device.Commands.Count > 0 ? status with { State = MachineState.Stopped, Cause = StateCause.ReferenceFailed } : status;
        Assert.False(await hand.ReferenceAsync());
        Assert.Equal("The machine is Stopped (at rest): an axis did not find or did not leave its endstop. "
            + "Check the endstop of each axis and its wiring, and which end the machine file says it is at.", hand.Trouble);
    }

    [Fact]
    public async Task A_goal_that_was_missed_without_a_cause_is_told_without_empty_words()
    {
        var (device, hand) = await Connected(MachineState.Idle);
        device.Says = status => status with { State = MachineState.Idle, Cause = StateCause.None };
        Assert.False(await hand.OrderAsync(MachineCommand.Stop, MachineState.Stopped));
        Assert.Equal("The machine is Idle (referenced and ready).", hand.Trouble);
    }

    [Fact]
    public async Task The_first_trouble_is_the_one_that_is_told()
    {
        var (device, hand) = await Connected(MachineState.Idle);
        device.Refuses = (type, _) => type == MessageType.Command ? Answer.WrongState : null;
        Assert.False(await hand.OrderAsync(MachineCommand.Stop, MachineState.Stopped));
        Assert.False(await hand.OrderAsync(MachineCommand.Clear, MachineState.Stopped));
        Assert.StartsWith("The device refused Stop", hand.Trouble);
        Assert.Null(await hand.LostStepsAsync());
        Assert.StartsWith("The device refused Stop", hand.Trouble);
    }

    [Fact]
    public async Task References_that_are_lost_on_the_way_are_asked_for_again_up_to_five_times()
    {
        for (var lost = 0; lost < 5; lost++)
        {
            var (device, hand) = await Connected(MachineState.Stopped);
            var missing = lost;
            device.Tells = asked => asked < missing ? null : NothingLost;
            Assert.Equal([new LostSteps(AxisName.X, 0, 0)], await hand.LostStepsAsync());
            Assert.Null(hand.Trouble);
        }

        var (_, never) = await Connected(MachineState.Stopped);
        Assert.Null(await never.LostStepsAsync());
        Assert.Equal("The device does not tell what its references found.", never.Trouble);
    }

    [Fact]
    public async Task References_that_a_device_refuses_to_tell_are_asked_for_once()
    {
        var (device, hand) = await Connected(MachineState.Stopped);
        var asked = 0;
        device.Refuses = (type, before) =>
        {
            asked += type == MessageType.ReferenceRead ? 1 : 0;
            return type == MessageType.ReferenceRead ? Answer.UnknownMessage : null;
        };
        Assert.Null(await hand.LostStepsAsync());
        Assert.Equal(1, asked);
        Assert.StartsWith("The device does not tell what its references found: it does not know the message", hand.Trouble);
    }

    private async Task<(ScriptedDevice Device, MachineHand Hand)> Connected(MachineState state)
    {
        var device = new ScriptedDevice(_time) { State = state, Cause = StateCause.Operator };
        var hand = new MachineHand(new DeviceDialogue(device, _time), Examples.Gantry);
        Assert.NotNull(await hand.ConnectAsync(7));
        return (device, hand);
    }
}
