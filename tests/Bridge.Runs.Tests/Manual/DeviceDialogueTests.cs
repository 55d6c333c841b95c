using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class DeviceDialogueTests
{
    [Fact]
    public async Task A_device_that_never_answers_is_told_as_such()
    {
        using var rig = new HandRig(faults: new MockFaults { IsSilent = true });
        Assert.Null(await rig.Hand.ConnectAsync(7));
        Assert.Equal("The device never answered.", rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_device_of_another_version_is_told_with_both_versions()
    {
        var time = new VirtualTime();
        var device = new DeviceDialogue(new ScriptedDevice(time) { Version = 99 }, time);
        Assert.Null(await device.OpenAsync(7));
        Assert.Equal($"The device speaks version 99 of the wire, this program version {Hello.CurrentVersion}.", device.Trouble);
    }

    [Fact]
    public async Task A_device_that_falls_silent_is_not_waited_for_for_ever()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time);
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        scripted.IsDead = true;
        Assert.Null(await device.TellAsync(new Command(MachineCommand.Clear)));
        Assert.Equal("The device no longer answers.", device.Trouble);
        Assert.False(await device.HaltAsync());
        Assert.NotEmpty(scripted.Stops); // a device that is not heard may hear
    }

    [Fact]
    public async Task A_cut_line_is_told_with_its_reason()
    {
        using var rig = await HandRig.Connected();
        rig.Port.Cut();
        Assert.False(await rig.Hand.LookAsync(TimeSpan.FromSeconds(1)));
        Assert.StartsWith("The line was lost: ", rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_device_that_does_not_come_to_rest_is_told_with_its_state()
    {
        var time = new VirtualTime();
        var device = new DeviceDialogue(new ScriptedDevice(time) { State = MachineState.Resetting }, time);
        Assert.NotNull(await device.OpenAsync(7));
        Assert.Null(await device.RestAsync(TimeSpan.FromSeconds(3)));
        Assert.Equal("The device stays Resetting (looking for its zero).", device.Trouble);
        Assert.InRange(device.Now.TotalSeconds, 3, 3.1);
    }

    [Theory]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Execute)]
    public async Task A_run_of_somebody_else_is_not_ended_by_hand(MachineState state)
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = state, Cause = StateCause.Operator, RunId = 9 };
        var hand = new MachineHand(new DeviceDialogue(scripted, time), Examples.Plotter);
        await hand.ConnectAsync(7);
        Assert.False(await hand.ReferenceAsync());
        Assert.NotNull(hand.Trouble);
        Assert.Empty(scripted.Commands);
        Assert.True(await hand.StopAsync());
        Assert.Empty(scripted.Commands);
    }

    [Theory]
    [InlineData(MessageType.SetMachine, "the machine")]
    [InlineData(MessageType.SetAxis, "an axis")]
    [InlineData(MessageType.SetHead, "a head")]
    public async Task What_a_device_refuses_of_its_machine_is_named(MessageType type, string what)
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { Refuses = (heard, _) => heard == type ? Answer.BadValue : null };
        var hand = new MachineHand(new DeviceDialogue(scripted, time), Examples.Plotter);
        Assert.NotNull(await hand.ConnectAsync(7));
        Assert.False(await hand.TellMachineAsync());
        Assert.Equal($"The device refused {what}: a value is outside its range.", hand.Trouble);
    }
}
