using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>Looks at a board all the while, as nobody else can, and fails the simulation for what must never be.</summary>
internal sealed class BoardWatch(Board board, SimulatedJob job)
{
    // After the line has fallen silent: the time-out, the cell in hand, slowing down, lifting a pen.
    private static readonly long MostSilence = (long)(SimulatedJob.LineTimeout + TimeSpan.FromSeconds(0.35)).TotalMicroseconds;

    // A slow board's turns, until it tells that it has stopped.
    private const long StopsWithin = 5_000;

    private static readonly MachineState[] Moving =
    [
        MachineState.Resetting, MachineState.Execute, MachineState.Holding, MachineState.Suspending, MachineState.Stopping, MachineState.Completing,
    ];

    private static readonly Dictionary<MachineCommand, MachineState> SetsGoing = new()
    {
        [MachineCommand.Reset] = MachineState.Resetting, [MachineCommand.Start] = MachineState.Starting, [MachineCommand.Unhold] = MachineState.Unholding,
    };

    // What a new session ends, by a hold or a stop.
    private static readonly MachineState[] NeedsLine =
    [
        MachineState.Resetting, MachineState.Starting, MachineState.Execute, MachineState.Unholding,
        MachineState.Suspending, MachineState.Suspended, MachineState.Unsuspending,
    ];

    private readonly FrameDecoder _fromBoard = new();
    private readonly FrameDecoder _fromHost = new();
    private readonly HashSet<(byte Session, byte Number, MachineCommand Command)> _commands = [];
    private readonly FrameDecoder _atHost = new();
    private readonly HashSet<string> _saidAtRest = []; // frames about the run since it came to rest
    private readonly Dictionary<MachineState, int> _entered = [];
    private MachineState _state = board.State;
    private MachineState _told = MachineState.Undefined;
    private byte _session;
    private byte _hostSession;
    private long _steps = board.Steps;
    private long _heardAt;
    private bool _isUnderWay;
    private bool _mustStay;
    private bool _mustObey;
    private long? _stopHeardAt; // and no Clear was sent since

    /// <summary>The part of the run that is under way; null before its first.</summary>
    public Stretch? Stretch { get; private set; }

    /// <summary>Records that the journal calls sent, in this stretch.</summary>
    public long JournalSent { get; set; }

    /// <summary>Records that the board last said it has done of this stretch.</summary>
    public uint RecordsDone { get; private set; }

    /// <summary>Cells of the job that are worked, by the gantry's own count.</summary>
    public int Truth => Stretch is null ? 0 : Stretch.Start + board.Worked - Stretch.WorkedBefore;

    /// <summary>How often each cell was worked.</summary>
    public Workings Workings { get; } = new(job);

    /// <summary>Whose word lets a held machine go on.</summary>
    public Leave Leave { get; } = new(goesOnAtWaits: !job.IsAttended);

    /// <summary>Whether the machine is at rest, keeps its run and the host has heard so: what the host says of the work is then all of it.</summary>
    public bool IsHeardAtRest { get; private set; }

    /// <summary>What the board has told of itself: why it was in which state.</summary>
    public HashSet<StateCause> Causes { get; } = [];

    /// <summary>A new part of the run begins.</summary>
    public void Begin(Stretch stretch)
    {
        (Stretch, JournalSent, RecordsDone) = (stretch, 0, 0);
        LeaveRest();
    }

    /// <summary>A host comes to the line; what it does to a machine that it finds Aborted is a person's word.</summary>
    /// <param name="mustObey">Whether nothing else goes wrong, so that it must do what it hears.</param>
    public void NewAttempt(bool mustObey)
    {
        (_isUnderWay, _mustStay, _mustObey, _stopHeardAt) = (false, false, mustObey, null);
        Leave.NewAttempt();
        LeaveRest();
    }

    /// <summary>Octets reach the board.</summary>
    public void BoardHears(ReadOnlySpan<byte> octets, long now)
    {
        _heardAt = now;
        if (octets.SequenceEqual(StopOctets.Burst))
            _stopHeardAt = now;
    }

    /// <summary>A moment has passed.</summary>
    public void Look(long now)
    {
        var (steps, state) = (board.Steps, board.State);
        if (steps != _steps)
        {
            Fail.If(!Moving.Contains(_state) && !Moving.Contains(state), $"it moved while it was {_state}, then {state}");
            Fail.If(now - _heardAt > MostSilence, $"it moves though it has heard nothing for {(now - _heardAt) / 1000} ms");
            Fail.If(_mustStay, $"it was stopped at once in the midst of a run, and moves again without anybody's word");
        }

        if (board.Wrong is { } wrong)
            throw new SimulationFailedException($"it {wrong}");
        Fail.If(_mustObey && now > _stopHeardAt + StopsWithin && state is not (MachineState.Aborting or MachineState.Aborted),
            $"STOP was said {(now - _stopHeardAt) / 1000} ms ago, and it is {state}");
        if (state != _state)
            LeaveRest();
        (_steps, _state) = (steps, state);
        _mustStay |= _isUnderWay && state == MachineState.Aborted;
    }

    /// <summary>The gantry has worked a cell.</summary>
    public void CellWorked(int index)
    {
        Fail.If(Stretch is null, $"a cell was worked before there was a run");
        var place = Stretch!.Start + index - Stretch.WorkedBefore;
        Fail.If(place >= job.InOrder.Count, $"cell {board.WorkedAt(index)} was worked after the last one of the job");
        Fail.If(board.WorkedAt(index) != job.InOrder[place], $"cell {board.WorkedAt(index)} was worked, and {job.InOrder[place]}, number {place}, was due");
        Workings.Work(place);
    }

    /// <summary>The host puts octets on the line.</summary>
    public void HostSends(ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
        {
            if (_fromHost.Push(octet) != DecoderEvent.Frame || !FrameHeader.TryRead(_fromHost.Frame, out var header, out var body))
                continue;
            if (header.Type == MessageType.Hello)
                HostOpens(header.Session);
            if (header.Type == MessageType.Command && Command.TryRead(body, out var command))
            {
                _commands.Add((header.Session, header.Number, command.Value));
                _isUnderWay |= SetsGoing.ContainsKey(command.Value);
                _stopHeardAt = command.Value == MachineCommand.Clear ? null : _stopHeardAt;
                if (command.Value == MachineCommand.Unhold)
                    Leave.Unhold(header.Session, header.Number);
            }
        }
    }

    /// <summary>The host takes octets from the line.</summary>
    public void HostHears(ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            if (_atHost.Push(octet) == DecoderEvent.Frame && _saidAtRest.Count > 0 && !IsHeardAtRest)
                IsHeardAtRest = _saidAtRest.Contains(Convert.ToHexString(_atHost.Frame));
    }

    /// <summary>The board puts octets on the line. True if they end a frame.</summary>
    public bool BoardSends(byte octet)
    {
        if (_fromBoard.Push(octet) != DecoderEvent.Frame)
            return false;
        if (FrameHeader.TryRead(_fromBoard.Frame, out var header, out var body) && header.Type == MessageType.Status)
        {
            Fail.If(!Status.TryRead(body, out var status), $"it sends a Status that cannot be");
            Causes.Add(status.Cause);
            Leave.Hear(status);
            Enter(header.Session, status.State);
            Take(status);
        }

        return true;
    }

    /// <summary>The board begins anew: its next Status may say anything.</summary>
    public void BoardWasReset()
    {
        _told = MachineState.Undefined;
        _steps = board.Steps;
        _state = board.State;
        LeaveRest();
    }

    // What the board says in another session is not for its ears: a copy of an older host's Hello may have opened one again.
    private void HostOpens(byte session)
    {
        _hostSession = session;
        LeaveRest();
    }

    private void LeaveRest()
    {
        IsHeardAtRest = false;
        _saidAtRest.Clear();
    }

    private void Take(in Status status)
    {
        if (Stretch is null || status.RunId != Stretch.RunId)
            return;
        Fail.If(status.RecordsTaken > JournalSent, $"it has taken {status.RecordsTaken} records, and the journal calls {JournalSent} sent");
        Fail.If(status.RecordsDone < RecordsDone && status.RecordsTaken > 0, $"its records done fell from {RecordsDone} to {status.RecordsDone}");
        RecordsDone = status.RecordsDone;
        var said = job.CellsBefore(Stretch.Course.PlaceOf(status.RecordsDone, status.CellsDone));
        var isAtRest = status.State is MachineState.Held or MachineState.Stopped or MachineState.Complete or MachineState.Aborted;
        if (isAtRest && status.State == board.State && _session == _hostSession && !IsHeardAtRest)
            _saidAtRest.Add(Convert.ToHexString(_fromBoard.Frame));
        Fail.If(isAtRest ? said != Truth : said > Truth, $"{status.State}, it says that {said} cells are worked, and {Truth} are");
    }

    private void Enter(byte session, MachineState state)
    {
        var told = session == _session ? _told : MachineState.Undefined; // nobody was told of what it did meanwhile
        Fail.If(session != _session && NeedsLine.Contains(state), $"a new session finds it in {state}: it goes on by itself");
        (_session, _told) = (session, state);
        Fail.If(!StateTable.IsDefined(state), $"it is in state {state}");
        if (state == told)
            return;
        Fail.If(told != MachineState.Undefined && !MayFollow(told, state), $"it went from {told} to {state}");
        if (!SetsGoing.ContainsValue(state) || told == MachineState.Undefined)
            return;
        _entered[state] = _entered.GetValueOrDefault(state) + 1;
        Fail.If(_entered[state] > _commands.Count(command => SetsGoing.TryGetValue(command.Command, out var goal) && goal == state),
            $"it went on to {state} though nobody said so");
    }

    // A state that is not acting may be left again before anyone was told of it; and an abort waits for nobody to be told of anything.
    private static bool MayFollow(MachineState from, MachineState to) => IsStep(from, to)
        || Enum.GetValues<MachineState>().Any(between => StateTable.IsDefined(between)
            && (!StateTable.IsActing(between) || to == MachineState.Aborting) && IsStep(from, between) && IsStep(between, to));

    private static bool IsStep(MachineState from, MachineState to) =>
        StateTable.Completed(from) == to || Enum.GetValues<MachineCommand>().Any(command => StateTable.Next(from, command) == to);
}
