using System.Threading.Channels;
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
    private Channel<MachineCommand> _orders = Channel.CreateBounded<MachineCommand>(MostWaiting);
    private MachineHand? _hand;
    private Status? _status;
    private (AxisName Axis, bool IsUp, DateTimeOffset Until)? _leave;
    private bool _isAborting;
    private bool _isLeaving;
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
            (_hand, _status, _leave, _isAborting, _isLeaving) = (null, null, null, false, false);
            _orders = Channel.CreateBounded<MachineCommand>(MostWaiting);
        }
    }

    /// <summary>Clear and Reset in their turn, Stop and Abort at once; false where no hand is at the machine, or too many wait.</summary>
    public bool TryCommand(MachineCommand command)
    {
        if (occupancy.By != Who)
            return false;
        lock (_door)
        {
            if (command is not (MachineCommand.Stop or MachineCommand.Abort or MachineCommand.Hold))
                return _orders.Writer.TryWrite(command);
            _leave = null;
            _hand?.Interrupt();
            if (command == MachineCommand.Abort)
            {
                _hand?.Interrupt();
                _isAborting = true;
            }

            return true;
        }
    }

    /// <summary>Gives leave to move an axis for a moment; the words say why not, null where it was given.</summary>
    public string? TryMove(AxisName axis, bool isUp)
    {
        lock (_door)
        {
            if (occupancy.By != Who || _status is not { } last)
                return "No hand is at the machine: connect first.";
            if (last.State is not (MachineState.Idle or MachineState.Held))
                return $"The machine is {last.State} ({StateWords.Of(last.State)}): it moves by hand in Idle. Clear it and Reset.";
            if (axis == AxisName.Z && setting.Machine.Z is null)
                return "The machine has no Z axis.";
            _leave = (axis, isUp, setting.Time.GetUtcNow() + Leave);
            return null;
        }
    }

    /// <summary>The key was let go.</summary>
    public void Rest()
    {
        lock (_door)
            _leave = null;
    }

    /// <summary>Stops what moves, and leaves the machine.</summary>
    public Task LeaveAsync()
    {
        lock (_door)
        {
            _isLeaving = true;
            _leave = null;
            _hand?.Interrupt();
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
        catch (RefusedException refused)
        {
            board.Tell(string.Join(" ", refused.Refusals));
        }
        finally
        {
            lock (_door)
                (_hand, _status) = (null, null);
            occupancy.Leave();
            board.Show(() => new LiveView());
        }
    }

    // A hand is good for one trouble or one interruption; then another one takes the machine up in a session of its own.
    private async Task ServeAsync(OpenDevice device, ChecklistRecord? looked)
    {
        var token = SessionToken.New();
        while (true)
        {
            var dialogue = new DeviceDialogue(device.Line, device.Time);
            var hand = new MachineHand(dialogue, setting.Machine);
            lock (_door)
                (_hand, _isAborting) = (hand, false);
            if (await hand.ConnectAsync(token).ConfigureAwait(false) is null)
            {
                board.Tell(hand.Trouble ?? "The device cannot be reached.");
                return;
            }

            if (looked is not null)
            {
                if (await before.TryEStopAsync(dialogue, looked, board.Tell, () => !hand.IsInterrupted).ConfigureAwait(false) is not { } tried)
                    return;
                tried.Save(RunFolder.MakeBeside(setting.Runs, "by-hand", tried.At));
                looked = null;
            }

            await ServeAsync(hand).ConfigureAwait(false);
            if (Volatile.Read(ref _isAborting) && !await dialogue.HaltAsync().ConfigureAwait(false))
                board.Tell("The device does not say that its motors are off. If it moves, press the e-stop.");
            if (hand.Trouble is { } trouble && !hand.IsInterrupted)
                board.Tell(trouble);
            await hand.StopAsync().ConfigureAwait(false);
            Take(hand);
            if (Volatile.Read(ref _isLeaving))
                return;
            token = SessionToken.After(token);
        }
    }

    private async Task ServeAsync(MachineHand hand)
    {
        while (hand.Trouble is null && !hand.IsInterrupted)
        {
            Take(hand);
            if (_orders.Reader.TryRead(out var order))
                await ObeyAsync(hand, order).ConfigureAwait(false);
            else if (Volatile.Read(ref _isLeaving))
                return;
            else if (Leaves() is { } leave)
                await hand.JogAsync(leave.Axis, leave.IsUp, () => IsStill(hand, leave.Axis, leave.IsUp)).ConfigureAwait(false);
            else
                await hand.LookAsync(Look).ConfigureAwait(false);
        }
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
            return _leave is { } leave && setting.Time.GetUtcNow() < leave.Until ? (leave.Axis, leave.IsUp) : null;
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
