using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>
/// The device's states and what it does in them; it has never seen an octet. Times are in seconds.
/// </summary>
internal sealed partial class Controller
{
    private static readonly AxisName[] Axes = [AxisName.X, AxisName.Y, AxisName.Z];

    private readonly Gantry _gantry;
    private readonly FaultSchedule _faults;
    private readonly int _capacity;
    private readonly Player _player;
    private DeviceSetup _setup = new();
    private HashSet<AxisName> _referenced = [];
    private Acts? _acts;
    private Referencing? _referencing;
    private IEnumerator<Act>? _reset;
    private Execution? _run;
    private bool _penIsDown;
    private bool _stopBegan;
    private double _now;
    private double _suspendedSince;

    /// <param name="gantry">What it drives; its drivers are off.</param>
    /// <param name="faults">What goes wrong.</param>
    /// <param name="capacity">Records that its queue holds.</param>
    /// <param name="store">Its lasting memory.</param>
    /// <param name="cause">Why it is aborted at first.</param>
    public Controller(Gantry gantry, FaultSchedule faults, int capacity, JobStore store, StateCause cause)
    {
        (_gantry, _faults, _capacity, Store, Cause) = (gantry, faults, capacity, store, cause);
        _player = new Player(gantry);
    }

    /// <summary>Raised when another act than before is being done: the act, when it began, and the present.</summary>
    public event Action<Act, double, double>? ActChanged
    {
        add => _player.ActChanged += value;
        remove => _player.ActChanged -= value;
    }

    /// <summary>Raised on every change of state.</summary>
    public event Action? StateChanged;

    public MachineState State { get; private set; } = MachineState.Aborted;

    public StateCause Cause { get; private set; }

    public Execution? Run => _run;

    public TimeSpan LineTimeout => _setup.LineTimeout;

    /// <summary>Whether something moves or is being done in its own time.</summary>
    public bool IsBusy => _player.IsBusy;

    /// <summary>Whether silence of the line now means a controlled stop.</summary>
    public bool NeedsTheLine => State is MachineState.Execute or MachineState.Unholding or MachineState.Unsuspending
        or MachineState.Suspending or MachineState.Suspended or MachineState.Starting or MachineState.Resetting;

    /// <summary>Whether the silence of a host matters now: a run from the store needs none.</summary>
    public bool MindsSilence => NeedsTheLine && (State == MachineState.Resetting || _run is not { IsStored: true, HasEnded: false });

    /// <summary>The stored job.</summary>
    public JobStore Store { get; }

    public bool IsWorking => _penIsDown || (_player.IsBusy && _player.Kind == ActKind.WorkDots);

    /// <summary>When something happens next by itself; infinite for never.</summary>
    public double NextEvent => Math.Min(_button.NextEvent,
        Math.Min(Math.Min(_player.NextEvent, _leaveEnds), Math.Min(_faults.NextEvent, SuspendedTooLong)));

    public BoardInputs Inputs
    {
        get
        {
            var inputs = _gantry.EStopIsOpen ? BoardInputs.EStopOpen : BoardInputs.None;
            if (_gantry.StartIsPressed)
                inputs |= BoardInputs.StartButton;
            foreach (var name in Axes)
            {
                if (_gantry.Axis(name) is { IsClosed: true })
                    inputs |= (BoardInputs)((int)BoardInputs.EndstopX << (int)name);
                if (_referenced.Contains(name))
                    inputs |= (BoardInputs)((int)BoardInputs.ReferencedX << (int)name);
            }

            return inputs;
        }
    }

    private double SuspendedTooLong => State == MachineState.Suspended && Cause == StateCause.Starved
        ? _suspendedSince + LineTimeout.TotalSeconds
        : double.PositiveInfinity;

    private bool IsReferenced => _setup.Machine is { } machine && _referenced.Count == (machine.Z is null ? 2 : 3);

    /// <summary>Goes on up to a time.</summary>
    public void AdvanceTo(double now)
    {
        LookAtInputs();
        _button.Look(_gantry.StartIsPressed, now);
        while (NextEvent <= now + 1e-9)
        {
            _now = Math.Max(_now, NextEvent);
            _faults.AdvanceTo(_now);
            if (_button.HasBeenPressed(_now) && !HasHost)
                Press();
            else if (_now >= SuspendedTooLong)
                Enter(MachineState.Holding, Cause);
            else if (_now >= _leaveEnds)
                EndJogging();
            else if (_player.NextEvent <= _now)
                Handle(_player.AdvanceTo(_now));
            LookAtInputs();
        }

        _now = Math.Max(_now, now);
        _player.AdvanceTo(_now);
    }

    /// <summary>Takes a part of the setup; the axes lose their reference.</summary>
    public Answer Set(Action<DeviceSetup> part)
    {
        if (State is not (MachineState.Stopped or MachineState.Aborted or MachineState.Idle))
            return Answer.WrongState;
        if (_player.IsBusy)
            return Answer.WrongState; // it is being jogged
        part(_setup);
        Store.Drop();
        _believed.UnionWith(_referenced);
        _referenced = [];
        _acts = null;
        _run?.End();
        return Answer.Accepted;
    }

    public Answer Begin(Begin begin)
    {
        if (State != MachineState.Idle)
            return Answer.WrongState;
        if (_setup.Machine is not { } machine || _acts is not { } acts)
            return Answer.NotReferenced;
        _run = new Execution(machine, acts, begin.RunId, begin.RecordCount, _capacity);
        return Answer.Accepted;
    }

    /// <summary>Begins a run of the stored job.</summary>
    public Answer BeginStored(ushort runId)
    {
        if (State != MachineState.Idle)
            return Answer.WrongState;
        if (_setup.Machine is not { } machine || _acts is not { } acts)
            return Answer.NotReferenced;
        var answer = Store.Find(_setup, _now, out var image);
        if (answer == Answer.Accepted)
            _run = new Execution(machine, acts, runId, uint.MaxValue, 0, new StoredRecords(image!, machine.Grid));
        return answer;
    }

    /// <summary>Begins to write a job into the store; a run that has begun ends.</summary>
    public Answer BeginStoring(ushort length)
    {
        if (State is not (MachineState.Stopped or MachineState.Aborted or MachineState.Idle))
            return Answer.WrongState;
        var answer = _setup.Machine is null ? Answer.NoSetup : Store.Begin(length, _setup, _now);
        if (answer == Answer.Accepted)
            _run?.End();
        return answer;
    }

    /// <summary>Takes octets of a job that is being written.</summary>
    public Answer TakeStored(ushort offset, ReadOnlySpan<byte> octets) => Store.Take(offset, octets, _now);

    /// <summary>Ends the writing of a job.</summary>
    public Answer CommitStored(ushort imageFcs) => Store.Commit(imageFcs, _now);

    /// <summary>Hears what is to be read of the stored job.</summary>
    public Answer Ask(StoreRead read) => _player.IsBusy ? Answer.StoreBusy : Store.Ask(read, _now);

    public Answer Take(uint firstIndex, ReadOnlySpan<byte> octets)
    {
        if (_run is null)
            return Answer.NoRun;
        var answer = _run.Take(firstIndex, octets);
        if (State == MachineState.Suspended && !_player.IsBusy)
            GoOn();
        return answer;
    }

    public Answer Command(MachineCommand command)
    {
        if (StateTable.Next(State, command) is not { } next)
            return Answer.WrongState;
        var answer = command switch
        {
            MachineCommand.Clear when _gantry.EStopIsOpen => Answer.CausePresent,
            MachineCommand.Reset when _setup.Machine is null => Answer.NoSetup,
            MachineCommand.Reset when !_setup.HeadsReachTheirCells => Answer.BadValue,
            MachineCommand.Start when !IsReferenced => Answer.NotReferenced,
            MachineCommand.Start when _run is null or { HasEnded: true } => Answer.NoRun,
            _ => Answer.Accepted,
        };
        if (answer == Answer.Accepted)
            Enter(next, StateCause.Operator);
        return answer;
    }

    /// <summary>Stops at once, drivers off.</summary>
    public void Abort(StateCause cause)
    {
        if (StateTable.Next(State, MachineCommand.Abort) is { } aborting)
            Enter(aborting, cause);
    }

    /// <summary>Comes to rest in a controlled way because the host has gone or changed; no run is lost by it.</summary>
    public void StopForTheLine(StateCause cause)
    {
        if (NeedsTheLine)
            Enter(State == MachineState.Resetting ? MachineState.Stopping : MachineState.Holding, cause);
    }
}
