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
        Assert.StartsWith("The device never answered. Check that it has power", rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_device_of_another_version_is_told_with_both_versions()
    {
        var time = new VirtualTime();
        var device = new DeviceDialogue(new ScriptedDevice(time) { Version = 99 }, time);
        Assert.Null(await device.OpenAsync(7));
        Assert.Equal($"The device speaks version 99 of the wire, this program version {Hello.CurrentVersion}. Bring both to the same version.",
            device.Trouble);
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
        Assert.StartsWith("The device no longer answers. By itself it stops", device.Trouble);
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

    [Fact]
    public async Task A_device_that_does_not_say_what_it_does_is_told_as_such()
    {
        var time = new VirtualTime();
        var device = new DeviceDialogue(new ScriptedDevice(time) { Says = _ => null }, time);
        Assert.NotNull(await device.OpenAsync(7));
        Assert.Null(await device.RestAsync(TimeSpan.FromSeconds(1)));
        Assert.Equal("The device does not say what it does.", device.Trouble);
        Assert.InRange(device.Now.TotalSeconds, 1, 1.1);
    }

    [Fact]
    public async Task A_device_that_is_no_longer_heard_before_it_comes_to_rest_is_told_by_that()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = MachineState.Resetting };
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        scripted.IsDead = true;
        Assert.Null(await device.RestAsync(TimeSpan.FromSeconds(30)));
        Assert.StartsWith("The device no longer answers. By itself it stops", device.Trouble);
    }

    [Fact]
    public async Task A_program_that_was_away_for_long_does_not_find_its_device_silent()
    {
        using var rig = await HandRig.Connected();
        var stalls = 0;
        rig.Line.AfterReading = () =>
        {
            if (stalls++ % 5 == 0)
                rig.Time.AdvanceTo(rig.Time.Now + TimeSpan.FromSeconds(3));
        };
        await rig.Device.PassAsync(TimeSpan.FromMinutes(1));
        Assert.Null(rig.Device.Trouble);
        Assert.True(stalls > 10);
    }

    [Fact]
    public async Task STOP_is_said_every_20_ms_for_a_second_and_what_is_not_confirmed_is_not_claimed()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = MachineState.Idle, HeedsStop = false };
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        var asked = time.Now;
        Assert.False(await device.HaltAsync());
        Assert.Equal(asked, scripted.Stops[0]);
        Assert.InRange(scripted.Stops.Count, 50, 52);
        Assert.InRange((time.Now - asked).TotalSeconds, 1, 1.1);
        Assert.Null(device.Trouble);
    }

    [Fact]
    public async Task STOP_that_is_heard_is_confirmed_and_said_no_more()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = MachineState.Idle };
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        Assert.True(await device.HaltAsync());
        Assert.InRange(scripted.Stops.Count, 1, 3); // until it is heard in a new session
        Assert.Equal(MachineState.Aborted, device.Status?.State);
        var said = scripted.Stops.Count;
        await device.PassAsync(TimeSpan.FromSeconds(1));
        Assert.Equal(said, scripted.Stops.Count);
    }

    [Fact]
    public async Task A_wait_tells_whether_what_was_waited_for_came_in_time()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = MachineState.Idle };
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        var until = device.Now + TimeSpan.FromSeconds(1);
        Assert.True(await device.WaitAsync(() => device.Now >= until, TimeSpan.FromSeconds(2)));
        Assert.InRange(device.Now, until, until + TimeSpan.FromMilliseconds(20));
        Assert.False(await device.WaitAsync(() => false, TimeSpan.FromSeconds(1)));
        Assert.Null(device.Trouble);
        scripted.IsDead = true;
        Assert.False(await device.WaitAsync(() => device.Trouble is not null, TimeSpan.FromMinutes(1)));
    }

    [Fact]
    public async Task An_answer_belongs_to_what_was_told_last()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = MachineState.Idle, Refuses = (type, before) => before == 1 ? Answer.BadValue : null };
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        Assert.Equal(Answer.Accepted, await device.TellAsync(new ReferenceRead()));
        Assert.Equal(Answer.BadValue, await device.TellAsync(new ReferenceRead()));
        Assert.Equal(Answer.Accepted, await device.TellAsync(new ReferenceRead()));
    }

    [Fact]
    public async Task What_was_told_of_an_earlier_question_is_forgotten_with_the_next()
    {
        var time = new VirtualTime();
        var scripted = new ScriptedDevice(time) { State = MachineState.Idle };
        scripted.Tells = asked => asked == 0 ? new References { Known = BoardAxes.All, WentUp = BoardAxes.Y, X = 1, Y = 2, Z = 3 } : null;
        var device = new DeviceDialogue(scripted, time);
        Assert.NotNull(await device.OpenAsync(7));
        await device.TellAsync(new ReferenceRead());
        Assert.Equal((1, 2, 3), (device.References?.X, device.References?.Y, device.References?.Z));
        await device.TellAsync(new ReferenceRead());
        Assert.Null(device.References);
    }
}
