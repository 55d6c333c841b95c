using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// A machine under a person's hand: connected to, told what it is, referenced, moved and tried, one thing at a time. What cannot be done is told by
/// false and <see cref="Trouble"/>. All of it is for one thread, but <see cref="Interrupt"/>.
/// </summary>
public sealed class MachineHand(DeviceDialogue device, Machine machine)
{
    private static readonly TimeSpan HoldPatience = TimeSpan.FromSeconds(1);

    private volatile bool _isInterrupted;
    private bool _isOurs;
    private string? _trouble;

    /// <summary>What the device last said of itself; null before it was connected to.</summary>
    public Status? Status => device.Status;

    /// <summary>Why nothing more can be done; null while all is well.</summary>
    public string? Trouble => _trouble ?? device.Trouble;

    /// <summary>Whether the person has asked for an end: what moves comes to a stop, and nothing more is begun.</summary>
    public bool IsInterrupted => _isInterrupted;

    /// <summary>The machine; where its file was changed, what it is from the next reference on.</summary>
    public Machine Machine { get; set; } = machine;

    private TimeOuts Times => Machine.TimeOuts;

    /// <summary>Asks for an end of what goes on: a controlled stop, and the second time STOP, drivers off. May be called from any thread.</summary>
    public void Interrupt()
    {
        if (_isInterrupted)
            device.Halt();
        _isInterrupted = true;
    }

    /// <summary>
    /// Asks for rest: for Hold and Stop it stops, however often it is asked; for Abort its motors go off; for another command nothing is done. May be called
    /// from any thread.
    /// </summary>
    public void Rest(MachineCommand command)
    {
        if (command is not (MachineCommand.Hold or MachineCommand.Stop or MachineCommand.Abort))
            return;
        if (!_isInterrupted)
            Interrupt();
        if (command == MachineCommand.Abort)
            Interrupt();
    }

    /// <summary>Opens a session with the device and waits until it is in no state that passes.</summary>
    /// <param name="token">Random.</param>
    public async Task<Welcome?> ConnectAsync(ushort token)
    {
        var welcome = await device.OpenAsync(token).ConfigureAwait(false);
        return welcome is not null && await device.RestAsync(Times.Answer).ConfigureAwait(false) is not null ? welcome : null;
    }

    /// <summary>Hears the device once more.</summary>
    public async Task<bool> LookAsync(TimeSpan pause)
    {
        await device.PassAsync(pause).ConfigureAwait(false);
        return Trouble is null;
    }

    /// <summary>Tells the device what machine it drives. It has to be at rest, and its axes lose their reference.</summary>
    public Task<bool> TellMachineAsync() => TellMachineAsync(device, Machine, Fail);

    /// <summary>Tells a device what machine it drives; where it refuses, the words go to <paramref name="fail"/>.</summary>
    public static async Task<bool> TellMachineAsync(DeviceDialogue device, Machine machine, Func<string, bool> fail)
    {
        return await TellAsync("the machine", SetupMessages.OfMachine(machine)).ConfigureAwait(false)
            && await AllAsync("an axis", SetupMessages.OfAxes(machine)).ConfigureAwait(false)
            && await AllAsync("a head", SetupMessages.OfHeads(machine)).ConfigureAwait(false);

        async Task<bool> AllAsync<T>(string what, IEnumerable<T> messages)
            where T : struct, IMessage
        {
            foreach (var message in messages)
                if (!await TellAsync(what, message).ConfigureAwait(false))
                    return false;
            return true;
        }

        async Task<bool> TellAsync<T>(string what, T message)
            where T : struct, IMessage => await device.TellAsync(message).ConfigureAwait(false) switch
        {
            null => false,
            Answer.Accepted => true,
            { } answer => fail($"The device refused {what}: {StateWords.Of(answer)}."),
        };
    }

    /// <summary>
    /// Brings the machine to Idle with all axes referenced anew, from wherever it is but a run: that is refused. While it looks for its zero,
    /// <paramref name="isWanted"/> is asked on and on: once it says no, STOP is sent and the drivers go off.
    /// </summary>
    public async Task<bool> ReferenceAsync(Func<bool>? isWanted = null)
    {
        if (!await TakeOverAsync().ConfigureAwait(false))
            return false;
        _isOurs = true;
        if (_isInterrupted)
            return FailStopped();
        if (!await TellMachineAsync().ConfigureAwait(false))
            return false;
        if (Status!.Value.State == MachineState.Aborted && !await OrderAsync(MachineCommand.Clear, MachineState.Stopped).ConfigureAwait(false))
            return false;
        return _isInterrupted ? FailStopped() : await SeekAsync(isWanted ?? (() => true)).ConfigureAwait(false);
    }

    /// <summary>How far each axis's count was off when it was last referenced; none where it had not been before, null where it cannot be told.</summary>
    public async Task<IReadOnlyList<LostSteps>?> LostStepsAsync()
    {
        const int MostTries = 5; // a references that is lost on the way is asked for again
        for (var tries = 0; tries < MostTries && Trouble is null; tries++)
        {
            if (await device.TellAsync(new ReferenceRead()).ConfigureAwait(false) is { } answer and not Answer.Accepted)
            {
                Fail($"The device does not tell what its references found: {StateWords.Of(answer)}.");
                return null;
            }

            if (device.References is { } told)
                return [.. LostSteps.Of(Machine, told)];
        }

        Fail("The device does not tell what its references found.");
        return null;
    }

    /// <summary>Moves one axis for as long as <paramref name="isHeld"/> says so and it is not interrupted, then until it is at rest.</summary>
    public async Task JogAsync(AxisName axis, bool isUp, Func<bool> isHeld)
    {
        bool IsWanted() => isHeld() && !_isInterrupted;
        await device.WaitAsync(() => !IsWanted() || Status!.Value.State is MachineState.Idle or MachineState.Held, HoldPatience).ConfigureAwait(false);
        await Jogging.MoveAsync(device, axis, isUp, IsWanted).ConfigureAwait(false);
    }

    /// <summary>
    /// Ends what this hand has begun, in a controlled way: the machine is Stopped, its motors hold their place. A machine that it has not taken over
    /// is left as it is.
    /// </summary>
    public async Task<bool> StopAsync()
    {
        if (!_isOurs || Status is not { } last || last.State is MachineState.Stopped or MachineState.Aborted)
            return true;
        return await OrderAsync(MachineCommand.Stop, MachineState.Stopped).ConfigureAwait(false);
    }

    /// <summary>Tells the device a command and waits for the state that it is to end in.</summary>
    public async Task<bool> OrderAsync(MachineCommand command, MachineState goal)
    {
        if (await device.TellAsync(new Command(command)).ConfigureAwait(false) is { } answer and not Answer.Accepted)
            return Fail($"The device refused {command}: {StateWords.Of(answer)}.");
        if (await device.RestAsync(Times.Reference * 3 + Times.Answer).ConfigureAwait(false) is not { } rest)
            return false;
        return rest.State == goal || Fail(WordsOf(rest));
    }

    // A run is nobody's to end but who watches it.
    private async Task<bool> TakeOverAsync() => Status?.State switch
    {
        null => Fail("The device is not connected."),
        MachineState.Stopped or MachineState.Aborted => true,
        MachineState.Idle or MachineState.Complete => await OrderAsync(MachineCommand.Stop, MachineState.Stopped).ConfigureAwait(false),
        { } busy => Fail($"The device has a run and is {busy} ({StateWords.Of(busy)}). Go on with it by bridge run --resume, or end it there first."),
    };

    private async Task<bool> SeekAsync(Func<bool> isWanted)
    {
        if (await device.TellAsync(new Command(MachineCommand.Reset)).ConfigureAwait(false) is { } answer and not Answer.Accepted)
            return Fail($"The device refused to reference its axes: {StateWords.Of(answer)}.");
        var atMost = Times.Reference * 3 + Times.Answer;
        var isOver = await device.WaitAsync(() => !isWanted() || _isInterrupted || !StateTable.IsActing(Status!.Value.State), atMost).ConfigureAwait(false);
        if (isOver && !StateTable.IsActing(Status!.Value.State))
            return Status.Value.State == MachineState.Idle || Fail(WordsOf(Status.Value));
        if (Trouble is null && isOver && isWanted())
            await OrderAsync(MachineCommand.Stop, MachineState.Stopped).ConfigureAwait(false);
        else if (Trouble is null)
            await device.HaltAsync().ConfigureAwait(false);
        return Fail(isOver ? "It was stopped while it looked for its zero." : $"It did not find its zero within {atMost.TotalSeconds:0} s.");
    }

    private bool FailStopped() => Fail("It was stopped before it looked for its zero.");

    private static string WordsOf(Status status)
    {
        var why = StateWords.Of(status.Cause);
        var words = $"The machine is {status.State} ({StateWords.Of(status.State)}){(why.Length > 0 ? $": {why}" : "")}.";
        return StateWords.WhatToDo(status.Cause) is { Length: > 0 } what ? $"{words} {what}" : words;
    }

    /// <summary>Notes why nothing more can be done, the first reason; false.</summary>
    internal bool Fail(string words)
    {
        _trouble ??= words;
        return false;
    }
}
