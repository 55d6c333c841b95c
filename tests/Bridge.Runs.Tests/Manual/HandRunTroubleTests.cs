using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>Records that a person asks for, on a device that does not do as it should.</summary>
public class HandRunTroubleTests
{
    private readonly VirtualTime _time = new();

    [Fact]
    public async Task One_run_takes_all_records_under_the_number_it_was_given()
    {
        var (device, hand, run) = await Referenced();
        Assert.True(await run.WorkAsync(Head.A), hand.Trouble);
        Assert.True(await run.GoAsync(new Position(new Cell(2, 3), 0, Head.A)), hand.Trouble);
        Assert.Equal((5, 2u, 100_000u), (device.RunId, device.Taken, device.Count));
        Assert.Equal([MachineCommand.Reset, MachineCommand.Start], device.Commands);
    }

    [Fact]
    public async Task A_record_that_is_not_taken_is_told_after_the_answers_time()
    {
        var (device, hand, run) = await Referenced();
        device.Refuses = (type, _) => type == MessageType.Records ? Answer.Accepted : null; // it swallows them
        var before = _time.Now;
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Equal("The device did not take a record.", hand.Trouble);
        Assert.InRange(_time.Now - before, ScriptedRig.Answer, ScriptedRig.Answer + TimeSpan.FromMilliseconds(100));
        Assert.Equal([MachineCommand.Reset], device.Commands);
        Assert.Equal(default, run.At);
    }

    [Fact]
    public async Task A_start_that_is_refused_is_told()
    {
        var (device, hand, run) = await Referenced();
        device.Refuses = (type, _) => type == MessageType.Command ? Answer.NotReferenced : null;
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Equal("The device refused to start: an axis is not referenced.", hand.Trouble);
    }

    [Theory]
    [InlineData(MachineState.Stopped, StateCause.EndstopHit, "The machine is Stopped: an endstop closed while it moved.")]
    [InlineData(MachineState.Aborted, StateCause.StopOctets, "The machine is Aborted: it was told to stop at once.")]
    [InlineData(MachineState.Held, StateCause.LineSilent, "The machine is Held: it heard nothing from this program.")]
    public async Task A_machine_that_comes_to_rest_before_the_record_is_done_is_told_with_its_cause(MachineState state, StateCause cause, string words)
    {
        var (device, hand, run) = await Referenced();
        device.Executes = false;
        Once(device, MachineState.Execute, () => device.Enter(state, cause));
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Equal(words, hand.Trouble);
        Assert.Equal([MachineCommand.Reset, MachineCommand.Start], device.Commands);
    }

    [Fact]
    public async Task A_machine_that_held_for_want_of_records_is_told_to_go_on()
    {
        var (device, hand, run) = await Referenced();
        device.Executes = false;
        Once(device, MachineState.Execute, () =>
        {
            device.Executes = true;
            device.Enter(MachineState.Held, StateCause.Starved);
        });
        Assert.True(await run.WorkAsync(Head.A), hand.Trouble);
        Assert.Equal([MachineCommand.Reset, MachineCommand.Start, MachineCommand.Unhold], device.Commands);
    }

    [Fact]
    public async Task A_machine_that_refuses_to_go_on_is_told()
    {
        var (device, hand, run) = await Referenced();
        device.Executes = false;
        Once(device, MachineState.Execute, () => device.Enter(MachineState.Held, StateCause.Starved));
        device.Refuses = (type, before) => type == MessageType.Command && before == 2 ? Answer.WrongState : null;
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Equal("The device refused to go on: it is not in a state for that.", hand.Trouble);
    }

    [Fact]
    public async Task A_record_that_is_never_done_is_told_after_ten_minutes()
    {
        var (device, hand, run) = await Referenced();
        device.Executes = false;
        var before = _time.Now;
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Equal("A record was not done within 10 min.", hand.Trouble);
        Assert.InRange((_time.Now - before).TotalMinutes, 10, 10.1);
    }

    [Fact]
    public async Task An_interrupt_ends_the_wait_for_a_record_at_once_and_is_no_trouble()
    {
        var (device, hand, run) = await Referenced();
        device.Executes = false;
        Once(device, MachineState.Execute, hand.Interrupt);
        var before = _time.Now;
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Null(hand.Trouble);
        Assert.InRange(_time.Now - before, TimeSpan.Zero, TimeSpan.FromSeconds(0.2));
    }

    [Fact]
    public async Task A_run_that_failed_takes_no_more_records()
    {
        var (device, hand, run) = await Referenced();
        Assert.False(await run.GoAsync(new Position(new Cell(16, 0), 0, Head.A)));
        Assert.NotNull(hand.Trouble);
        Assert.False(await run.WorkAsync(Head.A));
        Assert.Equal((0, 0u), (device.RunId, device.Taken));
    }

    [Fact]
    public async Task A_way_of_several_layers_that_fails_goes_no_further()
    {
        var (device, _, run) = await Referenced();
        device.Refuses = (type, before) => type == MessageType.Records && before == 1 ? Answer.Accepted : null;
        Assert.False(await run.GoAsync(new Position(new Cell(2, 3), 2, Head.A)));
        Assert.Equal((1u, 1), (device.Taken, run.At.Layer));
    }

    // As soon as a command has brought it into a state.
    private static void Once(ScriptedDevice device, MachineState state, Action act)
    {
        var isDone = false;
        device.Heard = type =>
        {
            if (isDone || type != MessageType.Command || device.State != state)
                return;
            isDone = true;
            act();
        };
    }

    private async Task<(ScriptedDevice Device, MachineHand Hand, HandRun Run)> Referenced()
    {
        var device = new ScriptedDevice(_time) { State = MachineState.Stopped };
        var dialogue = new DeviceDialogue(device, _time);
        var hand = new MachineHand(dialogue, Examples.Gantry);
        Assert.NotNull(await hand.ConnectAsync(7));
        Assert.True(await hand.ReferenceAsync(), hand.Trouble);
        return (device, hand, new HandRun(hand, dialogue, 5));
    }
}
