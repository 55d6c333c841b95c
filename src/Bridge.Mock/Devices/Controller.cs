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
    private readonly DeviceSetup _setup = new();
    private readonly Player _player;
    private HashSet<AxisName> _referenced = [];
    private Acts? _acts;
    private Referencing? _referencing;
    private IEnumerator<Act>? _reset;
    private Execution? _run;
    private bool _penIsDown;
    private bool _stopBegan;
    private double _now;
    private double _suspendedSince;

    public Controller(Gantry gantry, FaultSchedule faults, int capacity)
    {
        (_gantry, _faults, _capacity) = (gantry, faults, capacity);
        _player = new Player(gantry);
    }

    /// <summary>Raised on every change of state.</summary>
    public event Action? StateChanged;

    public MachineState State { get; private set; } = MachineState.Aborted;

    public StateCause Cause { get; private set; } = StateCause.PowerOn;

    public Execution? Run => _run;

    public TimeSpan LineTimeout => _setup.LineTimeout;

    /// <summary>Whether something moves or is being done in its own time.</summary>
    public bool IsBusy => _player.IsBusy;

    /// <summary>Whether silence of the line now means a controlled stop.</summary>
    public bool NeedsTheLine => State is MachineState.Execute or MachineState.Unholding or MachineState.Unsuspending
        or MachineState.Suspending or MachineState.Suspended or MachineState.Starting or MachineState.Resetting;

    public bool IsWorking => _penIsDown || (_player.IsBusy && _player.Kind == ActKind.WorkDots);

    /// <summary>When something happens next by itself; infinite for never.</summary>
    public double NextEvent => Math.Min(_player.NextEvent, Math.Min(_faults.NextEvent, SuspendedTooLong));

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
        while (NextEvent <= now + 1e-9)
        {
            _now = Math.Max(_now, NextEvent);
            _faults.AdvanceTo(_now);
            if (_now >= SuspendedTooLong)
                Enter(MachineState.Holding, Cause);
            else if (_player.NextEvent <= _now)
                Handle(_player.AdvanceTo(_now));
            LookAtInputs();
        }

        _now = Math.Max(_now, now);
        _player.AdvanceTo(_now);
    }

    /// <summary>Takes a part of the setup; the axes lose their reference.</summary>
    public Refusal Set(Action<DeviceSetup> part)
    {
        if (State is not (MachineState.Stopped or MachineState.Aborted or MachineState.Idle))
            return Refusal.WrongState;
        part(_setup);
        _referenced = [];
        _acts = null;
        return Refusal.None;
    }

    public Refusal Begin(Begin begin)
    {
        if (State != MachineState.Idle)
            return Refusal.WrongState;
        if (_setup.Machine is not { } machine || _acts is not { } acts)
            return _setup.Machine is null ? Refusal.NoSetup : Refusal.NotReferenced;
        _run = new Execution(machine, acts, begin.RunId, begin.RecordCount, _capacity);
        return Refusal.None;
    }

    public Refusal Take(uint firstIndex, ReadOnlySpan<byte> octets)
    {
        if (_run is null)
            return Refusal.NoRun;
        var refusal = _run.Take(firstIndex, octets);
        if (State == MachineState.Suspended && !_player.IsBusy)
            GoOn();
        return refusal;
    }

    public Refusal Command(MachineCommand command)
    {
        if (StateTable.Next(State, command) is not { } next)
            return Refusal.WrongState;
        var refusal = command switch
        {
            MachineCommand.Clear when _gantry.EStopIsOpen => Refusal.CausePresent,
            MachineCommand.Reset when _setup.Machine is null => Refusal.NoSetup,
            MachineCommand.Start when !IsReferenced => Refusal.NotReferenced,
            MachineCommand.Start when _run is null or { HasEnded: true } => Refusal.NoRun,
            _ => Refusal.None,
        };
        if (refusal == Refusal.None)
            Enter(next, StateCause.Operator);
        return refusal;
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
