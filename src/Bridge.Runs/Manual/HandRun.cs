using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// Single records that a person asks for, as one run of a referenced machine: it goes to a cell, or works one. Between two of them the machine waits for
/// records, or holds where that takes long.
/// </summary>
/// <param name="hand">The machine, in Idle.</param>
/// <param name="device">The dialogue that the hand has with it.</param>
/// <param name="runId">The run's number on the wire, 1 to 65535.</param>
public sealed class HandRun(MachineHand hand, DeviceDialogue device, ushort runId)
{
    // As many as a person asks for in a day; more is a new run.
    private const uint MostRecords = 100_000;

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10); // a large machine's longest way, slowly

    private uint _sent;

    /// <summary>Where the machine is by the records so far; a job starts at cell (0, 0) of layer 0 with head a.</summary>
    public Position At { get; private set; }

    private Machine Machine => hand.Machine;

    /// <summary>Goes to a cell of this layer or a higher one with a head, idle.</summary>
    public async Task<bool> GoAsync(Position to)
    {
        if (!Machine.Grid.Holds(to.Cell) || to.Layer >= Machine.Grid.Layers)
            return hand.Fail($"({to.Cell.X}, {to.Cell.Y}) on layer {to.Layer} is outside the grid.");
        if (to.Layer < At.Layer)
            return hand.Fail($"It is on layer {At.Layer}, and a run only goes up: end here and begin anew to go to layer {to.Layer}.");
        while (At.Layer < to.Layer)
            if (!await DoAsync(Record.Go(At.Head, At.Cell, rise: true), At with { Layer = At.Layer + 1 }).ConfigureAwait(false))
                return false;
        return await DoAsync(Record.Go(to.Head, to.Cell), to).ConfigureAwait(false);
    }

    /// <summary>Works the cell where the machine is: a dot, or the pen lowered and lifted.</summary>
    public Task<bool> WorkAsync(Head head) =>
        DoAsync(Record.Row(Machine.Width, head, At.Cell, 0, 1), At with { Head = head });

    /// <summary>Holds a pen down where the machine is, and lifts it: see <see cref="PenHold"/>, for whose machine the device has to be referenced.</summary>
    /// <param name="head">The head with the pen.</param>
    /// <param name="isWanted">Asked on and on until it says no; the pen then goes up within two slices.</param>
    /// <param name="atMost">The longest that it is held, up to <see cref="PenHold.Longest"/>.</param>
    public async Task<bool> HoldAsync(Head head, Func<bool> isWanted, TimeSpan atMost)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(atMost, PenHold.Longest);
        var until = device.Now + atMost;
        var isOver = false;
        bool IsOver() => isOver = isOver || hand.IsInterrupted || device.Now >= until || !isWanted(); // a key says no only once
        var lower = Record.Row(Machine.Width, head, At.Cell, 0, 1);
        var lift = Record.Wait(Machine.Width, 0);
        if (!await SendAsync(lower).ConfigureAwait(false))
            return false;
        while (!IsOver())
        {
            if (!await SendAsync(lift).ConfigureAwait(false) || !await SendAsync(lower).ConfigureAwait(false))
                return false;
            await device.WaitAsync(() => IsOver() || hand.Status!.Value.RecordsDone >= _sent - 2 || IsAtRest, Patience).ConfigureAwait(false);
            if (IsAtRest)
                break;
        }

        return await DoneAsync(At with { Head = head }).ConfigureAwait(false);
    }

    /// <summary>Does one record as it stands, and waits until it is done.</summary>
    /// <param name="record">One that the device may do from where the machine is; no `again`, no `end`, no wait for the operator.</param>
    /// <param name="to">Where it leaves the machine.</param>
    public async Task<bool> DoAsync(Record record, Position to) =>
        await SendAsync(record).ConfigureAwait(false) && await DoneAsync(to).ConfigureAwait(false);

    private bool IsAtRest => hand.Status!.Value.State is MachineState.Held or MachineState.Stopped or MachineState.Aborted;

    // Hands a record over, and has the machine begin or go on.
    private async Task<bool> SendAsync(Record record)
    {
        if (hand.Trouble is not null || hand.IsInterrupted)
            return false;
        if (_sent == 0 && !await AcceptedAsync(new Begin(runId, MostRecords), "a run").ConfigureAwait(false))
            return false;
        var octets = new byte[Machine.Width.Bytes];
        RecordCodec.Write(Machine.Width, record, octets);
        device.SendRecords(_sent, octets);
        _sent++;
        if (!await device.WaitAsync(() => hand.Status!.Value.RecordsTaken == _sent, Machine.TimeOuts.Answer).ConfigureAwait(false))
            return hand.Fail("The device did not take a record.");
        return await GoOnAsync().ConfigureAwait(false);
    }

    private Task<bool> GoOnAsync() => (hand.Status!.Value.State, _sent) switch
    {
        (MachineState.Idle, _) => AcceptedAsync(new Command(MachineCommand.Start), "to start"),
        (MachineState.Held, _) => AcceptedAsync(new Command(MachineCommand.Unhold), "to go on"),
        _ => Task.FromResult(true), // it waits for records, or is about to
    };

    // A machine that had just begun to hold for want of records is told to go on once it holds; one that holds for another reason is not.
    private async Task<bool> DoneAsync(Position to)
    {
        while (hand.Status!.Value is var last && last.RecordsDone < _sent)
        {
            if (last is { State: MachineState.Held, Cause: StateCause.Starved } && !await GoOnAsync().ConfigureAwait(false))
                return false;
            if (last is { State: MachineState.Stopped or MachineState.Aborted } or { State: MachineState.Held, Cause: not StateCause.Starved })
                return hand.Fail($"The machine is {last.State}: {StateWords.Of(last.Cause)}.");
            if (hand.IsInterrupted)
                return false;
            if (!await device.WaitAsync(() => hand.Status!.Value.RecordsDone == _sent || hand.Status.Value.State != last.State || hand.IsInterrupted, Patience)
                .ConfigureAwait(false))
                return hand.Fail($"A record was not done within {Patience.TotalMinutes:0} min.");
        }

        At = to;
        return true;
    }

    private async Task<bool> AcceptedAsync<T>(T message, string what)
        where T : struct, IMessage
    {
        return await device.TellAsync(message).ConfigureAwait(false) is { } answer
            && (answer == Answer.Accepted || hand.Fail($"The device refused {what}: {StateWords.Of(answer)}."));
    }
}
