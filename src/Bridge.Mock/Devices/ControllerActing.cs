using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>What the device does in each state.</summary>
internal sealed partial class Controller
{
    private void Enter(MachineState state, StateCause cause)
    {
        (State, Cause) = (state, cause);
        _stopBegan &= state is MachineState.Holding or MachineState.Suspending or MachineState.Stopping or MachineState.Completing;
        switch (state)
        {
            case MachineState.Clearing:
                _gantry.DriversAreOn = true;
                break;
            case MachineState.Resetting:
                _isOff = false;
                _reset = Reset().GetEnumerator();
                break;
            case MachineState.Holding or MachineState.Suspending or MachineState.Stopping or MachineState.Completing:
                BeginStop();
                break;
            case MachineState.Starting or MachineState.Unholding:
                EndJogging();
                break;
            case MachineState.Suspended:
                _suspendedSince = _now;
                break;
            case MachineState.Aborting:
                DropAll();
                break;
        }

        StateChanged?.Invoke();
        if (!_player.IsBusy)
            GoOn();
    }

    /// <summary>Goes on after an act, or with a state that has just begun.</summary>
    private void GoOn()
    {
        switch (State)
        {
            case MachineState.Resetting:
                GoOnResetting();
                break;
            case MachineState.Execute:
                GoOnExecuting(_run!);
                break;
            case MachineState.Starting or MachineState.Unholding when ReturnAct() is { } act:
                _player.Begin(act, _now);
                break;
            case MachineState.Suspended when Cause == StateCause.Starved && _run!.HasWork:
                Enter(MachineState.Unsuspending, StateCause.None);
                break;
            case MachineState.Holding or MachineState.Suspending or MachineState.Stopping or MachineState.Completing when _penIsDown:
                _player.Begin(_run!.LiftForNow(_player.At), _now);
                break;
            default:
                if (StateTable.IsActing(State) && StateTable.Completed(State) is { } next)
                    Enter(next, Cause);
                break;
        }
    }

    private void GoOnResetting()
    {
        if (_reset!.MoveNext())
            _player.Begin(_reset.Current, _now);
        else if (_referencing is { HasFailed: true })
            Abort(StateCause.ReferenceFailed);
        else
            BeIdle();
    }

    private void BeIdle()
    {
        _run?.ComeHome();
        Enter(MachineState.Idle, Cause);
    }

    private void GoOnExecuting(Execution run)
    {
        switch (run.Next(_player.At, out var act))
        {
            case ExecutionStep.Act:
                _player.Begin(act, _now);
                break;
            case ExecutionStep.Starved:
                Enter(MachineState.Suspending, StateCause.Starved);
                break;
            case ExecutionStep.Ended:
                Enter(MachineState.Completing, StateCause.JobComplete);
                break;
            case ExecutionStep.OperatorWait:
                Enter(MachineState.Holding, StateCause.OperatorWait);
                break;
            case ExecutionStep.BadRecord:
                Enter(MachineState.Stopping, StateCause.BadRecord);
                break;
        }
    }

    /// <summary>
    /// References the axes, or where they are referenced only brings them home. Before a search each pen is lifted: a device that was reset does
    /// not know which is down.
    /// </summary>
    private IEnumerable<Act> Reset()
    {
        var machine = _setup.Machine!;
        if (!IsReferenced || _acts is null)
        {
            if (machine.Z is null)
                _player.At = _player.At with { ZMm = 0 };
            foreach (var pen in new[] { machine.B, machine.A }.OfType<HeadTool.Pen>())
            {
                _penIsDown = true;
                yield return Act.Stand(ActKind.LiftPen, _player.At, pen.Lift.TotalSeconds);
            }

            _acts = new Acts(machine);
            _referencing = new Referencing(machine, _gantry, _player, _acts);
            _referenced = _referencing.Referenced;
            (_known, _believed) = (_believed, []);
            foreach (var act in _referencing.Acts())
                yield return act;
            yield break;
        }

        if (_penIsDown)
            yield return _run!.LiftForNow(_player.At);
        foreach (var act in _acts.Home(_player.At))
            yield return act;
    }

    private void BeginStop()
    {
        if (State is MachineState.Stopping or MachineState.Completing)
            _run?.End();
        if (_stopBegan)
            return;
        _stopBegan = true;
        if (_isJogging)
        {
            _leaveEnds = double.PositiveInfinity;
            _player.StopSoon(_now); // the way back too
            return;
        }

        var rest = _player.StopSoon(_now);
        if (_run is { HasEnded: false })
            _run.PutBack(rest);
    }

    private void DropAll()
    {
        _player.Drop();
        _leaveEnds = double.PositiveInfinity;
        (_isJogging, _isOff) = (false, false);
        _gantry.DriversAreOn = false;
        _referenced = [];
        _believed = [];
        _referencing = null;
        _acts = null;
        _run?.End();
    }

    private void Handle(PlayerEvent happened)
    {
        switch (happened)
        {
            case PlayerEvent.Cell:
                _run!.CountCell();
                _gantry.Work(_run.Position);
                _faults.CountCell(_now);
                _player.Watch();
                break;
            case PlayerEvent.Done:
                Done(_player.Kind);
                break;
            case PlayerEvent.Endstop:
                MeetEndstop();
                break;
        }
    }

    private void Done(ActKind kind)
    {
        if (kind == ActKind.LowerPen)
            _penIsDown = true;
        if (kind == ActKind.LiftPen)
            _penIsDown = false;
        if (State != MachineState.Resetting && !_isJogging)
            _run?.CountAct(kind);
        _isJogging = false;
        GoOn();
    }

    private void MeetEndstop()
    {
        var isExpected = !IsReferenced && (State != MachineState.Resetting || _referencing?.Seeking == _player.ClosedAxis);
        if (!isExpected)
        {
            Abort(StateCause.EndstopHit);
            return;
        }

        _player.Drop();
        GoOn();
    }

    private void LookAtInputs()
    {
        var hasOpened = _gantry.EStopHasOpened;
        _gantry.EStopHasOpened = false;
        if (hasOpened || _gantry.EStopIsOpen)
            Abort(StateCause.EStop);
        else if (IsReferenced && _player.IsBusy && _gantry.AnyEndstopIsClosed)
            Abort(StateCause.EndstopHit);
    }
}
