using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>What a page asks for before it moves the machine by hand.</summary>
/// <param name="Command">Connect, Clear, Reset, Stop, Abort or Leave.</param>
/// <param name="On">With Connect: mock or device.</param>
/// <param name="Operator">With Connect to a real machine: who operates it.</param>
/// <param name="Answers">With Connect to a real machine: what was answered with yes.</param>
public sealed record HandWish(string? Command, string? On, string? Operator, IReadOnlyList<string>? Answers);

/// <summary>The machine under a page's hand: connected to, cleared, referenced, and moved for as long as leave to move is given.</summary>
/// <param name="setting">Which machine.</param>
/// <param name="before">What comes before motion.</param>
/// <param name="occupancy">Whose the machine is.</param>
/// <param name="board">Where pages look.</param>
public sealed class HandDesk(PanelSetting setting, BeforeMotion before, Occupancy occupancy, LiveBoard board)
{
    /// <summary>How long leave to move lasts: a page says it about every 50 ms while a key is held.</summary>
    public static readonly TimeSpan Leave = TimeSpan.FromMilliseconds(150);

    private const string Who = "A person's hand";
    private const int MostWaiting = 4;

    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(10); // what the device tells is on its way to the pages after that

    private readonly DeviceDoor _devices = new(setting, before, occupancy);
    private readonly Lock _door = new();
    private readonly Queue<MachineCommand> _orders = new(MostWaiting);
    private readonly Holds _holds = new();
    private MachineHand? _hand;
    private Status? _status;
    private (AxisName Axis, bool IsUp, long Given)? _leave;
    private MachineCommand? _rest; // asked for and not yet carried out; a hand has no run to hold, so that Hold stops it
    private bool _isLeaving;
    private bool _hasLeft;
    private Task _underWay = Task.CompletedTask;

    /// <summary>Connects to a device; what keeps it from that is told as a problem, else null.</summary>
    /// <exception cref="RefusedException">The checklist is not answered.</exception>
    public async Task<RunTrouble?> TryConnectAsync(HandWish wish)
    {
        var (device, looked, trouble) = await _devices.TryOpenAsync(Who, wish.On, fast: false, new LookedOver(wish.Operator, wish.Answers), Forget)
            .ConfigureAwait(false);
        if (device is null)
            return trouble;
        board.Show(() => View(device));
        _underWay = BeAtHandAsync(device, looked);
        return null;
    }

    private void Forget()
    {
        lock (_door)
        {
            (_hand, _status, _leave, _rest, _isLeaving, _hasLeft) = (null, null, null, null, false, false);
            _orders.Clear();
            _holds.Forget();
        }
    }

    /// <summary>
    /// Clear and Reset in their turn, Stop and Abort at once: what waits is then forgotten. False where no hand is at the machine, and for Clear and Reset
    /// also where it is being brought to rest, or too many wait.
    /// </summary>
    public bool TryCommand(MachineCommand command)
    {
        if (occupancy.By != Who)
            return false;
        lock (_door)
        {
            if (_hasLeft)
                return false;
            if (command is MachineCommand.Clear or MachineCommand.Reset)
                return TryWait(command);
            if (command is not (MachineCommand.Hold or MachineCommand.Stop or MachineCommand.Abort))
                return false;
            _leave = null;
            _orders.Clear();
            _rest = ToRest.Most(_rest, command);
            if (_hand is not null)
                _hand.Rest(command);
            return true;
        }
    }

    private bool TryWait(MachineCommand order)
    {
        if (_orders.Count == MostWaiting || _isLeaving || _rest is not null || _hand is { IsInterrupted: true })
            return false;
        _orders.Enqueue(order);
        return true;
    }

    /// <summary>Gives leave to move an axis for a moment; the words say why not, null where it was given.</summary>
    /// <param name="page">Which page gives it.</param>
    /// <param name="hold">The number of the page's hold of a key or button; a later hold has a greater one.</param>
    /// <param name="axis">Which axis.</param>
    /// <param name="isUp">Whether towards greater cells.</param>
    public string? TryMove(string page, long hold, AxisName axis, bool isUp)
    {
        lock (_door)
        {
            if (occupancy.By != Who || _status is not { } last)
                return "No hand is at the machine: connect first.";
            if (_isLeaving || _rest is not null || _hand is { IsInterrupted: true })
                return "The machine is being brought to rest.";
            if (last.State is not (MachineState.Idle or MachineState.Held))
                return $"The machine is {last.State} ({StateWords.Of(last.State)}): it moves by hand in Idle. Clear it and Reset.";
            if (axis == AxisName.Z && setting.Machine.Z is null)
                return "The machine has no Z axis.";
            if (!_holds.TryGoOn(page, hold))
                return "The key or button was let go before this came.";
            _leave = (axis, isUp, setting.Time.GetTimestamp());
            return null;
        }
    }

    /// <summary>The key was let go: nothing has leave to move any more, and what comes late of the same hold gives none.</summary>
    /// <param name="page">The page, where it is the one that moves the machine; else null.</param>
    /// <param name="hold">The number of the hold that is over; null where none is told.</param>
    public void Rest(string? page, long? hold)
    {
        lock (_door)
        {
            _leave = null;
            if (page is not null && hold is { } ended)
                _holds.End(page, ended);
        }
    }

    /// <summary>Stops what moves, and leaves the machine.</summary>
    public Task LeaveAsync()
    {
        lock (_door)
        {
            _isLeaving = true;
            _leave = null;
            if (_hand is not null)
                _hand.Rest(MachineCommand.Stop);
        }

        return _underWay;
    }

    private async Task BeAtHandAsync(OpenDevice device, ChecklistRecord? looked)
    {
        await Task.Yield();
        try
        {
            using (device)
                await ServeAsync(device, looked).ConfigureAwait(false);
        }
        finally
        {
            lock (_door)
                (_hand, _status, _hasLeft) = (null, null, true);
            occupancy.Leave();
            board.Show(() => new LiveView());
        }
    }

    // A hand is good for one trouble or one interruption; then another one takes the machine up in a session of its own.
    private async Task ServeAsync(OpenDevice device, ChecklistRecord? looked)
    {
        var token = SessionToken.New();
        bool isReady;
        do
        {
            var dialogue = new DeviceDialogue(device.Line, device.Time);
            var hand = new MachineHand(dialogue, setting.Machine);
            TakeUp(hand);
            isReady = await TryBeginAsync(dialogue, hand, token, looked).ConfigureAwait(false);
            if (isReady)
            {
                looked = null;
                await ServeAsync(hand).ConfigureAwait(false);
                if (hand.Trouble is { } trouble && !hand.IsInterrupted)
                    board.Tell(trouble);
            }

            await RestAsync(dialogue, hand).ConfigureAwait(false);
            token = SessionToken.After(token);
        }
        while (!IsOver(isReady));
    }

    // What waited behind an order that failed was meant for another machine than the one that it left behind. What was asked for too late for the hand before
    // this one is this one's to do.
    private void TakeUp(MachineHand hand)
    {
        lock (_door)
        {
            if (_hand is { } last)
            {
                _status = last.Status;
                _orders.Clear();
            }

            _hand = hand;
            if (_isLeaving)
                hand.Rest(MachineCommand.Stop);
            if (_rest is { } rest)
                hand.Rest(rest);
        }

        board.Changed();
    }

    private async Task<bool> TryBeginAsync(DeviceDialogue dialogue, MachineHand hand, ushort token, ChecklistRecord? looked)
    {
        if (await hand.ConnectAsync(token).ConfigureAwait(false) is null)
        {
            board.Tell(hand.Trouble ?? "The device cannot be reached.");
            return false;
        }

        if (looked is null)
            return true;
        try
        {
            if (await before.TryEStopAsync(dialogue, looked, board.Tell, () => !hand.IsInterrupted).ConfigureAwait(false) is not { } tried)
                return false;
            tried.Save(RunFolder.MakeBeside(setting.Runs, "by-hand", tried.At));
            return true;
        }
        catch (RefusedException refused)
        {
            board.Tell(string.Join(" ", refused.Refusals));
            return false;
        }
    }

    // The hand has done what it could, and the machine comes to rest: as it was asked to, or from what the hand had begun.
    private async Task RestAsync(DeviceDialogue dialogue, MachineHand hand)
    {
        var rest = TakeRest();
        if (rest == MachineCommand.Abort)
        {
            if (!await dialogue.HaltAsync().ConfigureAwait(false))
                board.Tell("The device does not say that its motors are off. If it moves, press the e-stop.");
        }
        else if (rest is not null && hand.Status is { } last && StateTable.Next(last.State, MachineCommand.Stop) is not null)
        {
            if (!await hand.OrderAsync(MachineCommand.Stop, MachineState.Stopped).ConfigureAwait(false))
                board.Tell("The device does not say that it has stopped. If it moves, press the e-stop.");
        }

        await hand.StopAsync().ConfigureAwait(false);
    }

    // Taken before it is carried out: what is asked for meanwhile is asked for anew.
    private MachineCommand? TakeRest()
    {
        lock (_door)
        {
            var rest = _rest;
            _rest = null;
            return rest;
        }
    }

    private bool IsOver(bool isReady)
    {
        lock (_door)
            return _hasLeft = _rest is null && (_isLeaving || !isReady);
    }

    private async Task ServeAsync(MachineHand hand)
    {
        while (hand.Trouble is null && !hand.IsInterrupted)
        {
            Take(hand);
            if (Next(hand) is { } order)
                await ObeyAsync(hand, order).ConfigureAwait(false);
            else if (Volatile.Read(ref _isLeaving))
                return;
            else if (Leaves() is { } leave)
                await hand.JogAsync(leave.Axis, leave.IsUp, () => IsStill(hand, leave.Axis, leave.IsUp)).ConfigureAwait(false);
            else
                await hand.LookAsync(Look).ConfigureAwait(false);
        }
    }

    private MachineCommand? Next(MachineHand hand)
    {
        lock (_door)
            return !hand.IsInterrupted && _orders.TryDequeue(out var order) ? order : null;
    }

    private Task<bool> ObeyAsync(MachineHand hand, MachineCommand order) => order switch
    {
        MachineCommand.Clear => hand.OrderAsync(MachineCommand.Clear, MachineState.Stopped),
        MachineCommand.Reset => hand.ReferenceAsync(() =>
        {
            Take(hand);
            return !hand.IsInterrupted;
        }),
        _ => Task.FromResult(true),
    };

    private (AxisName Axis, bool IsUp)? Leaves()
    {
        lock (_door)
            return _leave is { } leave && setting.Time.GetElapsedTime(leave.Given) < Leave ? (leave.Axis, leave.IsUp) : null;
    }

    private bool IsStill(MachineHand hand, AxisName axis, bool isUp)
    {
        Take(hand);
        return Leaves() is { } leave && leave == (axis, isUp);
    }

    private void Take(MachineHand hand)
    {
        lock (_door)
        {
            if (Nullable.Equals(_status, hand.Status))
                return;
            _status = hand.Status;
        }

        board.Changed();
    }

    private LiveView View(OpenDevice device)
    {
        Status? known;
        lock (_door)
            known = _status;
        if (known is not { } last)
            return LiveBoard.Of("hand", MachineState.Undefined, StateCause.None, [MachineCommand.Stop, MachineCommand.Abort]);
        MachineCommand[] all = [MachineCommand.Clear, MachineCommand.Reset, MachineCommand.Stop, MachineCommand.Abort];
        return LiveBoard.Of("hand", last.State, last.Cause, all.Where(command => StateTable.Next(last.State, command) is not null)) with
        {
            Hand = new HandView(device.Name, device.IsMock,
                new InputsView(Has(last, BoardInputs.EStopOpen), Has(last, BoardInputs.EndstopX), Has(last, BoardInputs.EndstopY),
                    Has(last, BoardInputs.EndstopZ), Has(last, BoardInputs.StartButton)),
                new AxesView(Has(last, BoardInputs.ReferencedX), Has(last, BoardInputs.ReferencedY),
                    setting.Machine.Z is null ? null : Has(last, BoardInputs.ReferencedZ))),
        };
    }

    private static bool Has(in Status status, BoardInputs input) => status.Inputs.HasFlag(input);
}
