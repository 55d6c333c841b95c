using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>Jogging, hold-to-run. The gantry has no play, so none is taken up.</summary>
internal sealed partial class Controller
{
    private const double LeaveSeconds = 0.04;
    private const double SlowingSeconds = 1 / 64.0;

    private double _leaveEnds = double.PositiveInfinity; // infinite where no leave runs
    private bool _isJogging; // an act of jogging is being done, or one of the way back
    private bool _isOff;     // the carriage is not where the state left it
    private Place _origin;
    private Jog _jog;

    private bool MayJog => State is MachineState.Idle or MachineState.Held && IsReferenced;

    /// <summary>Hears leave to move an axis; one that is not allowed now is ignored.</summary>
    public void Jog(Jog jog)
    {
        if (!MayJog || (jog.Axis == 2 && _setup.Machine!.Z is null) || (_player.IsBusy && jog != _jog))
            return;
        if (_player.IsBusy)
        {
            if (!double.IsInfinity(_leaveEnds))
                _leaveEnds = _now + LeaveSeconds;
            return;
        }

        BeginJogging(jog);
    }

    private void BeginJogging(Jog jog)
    {
        var (axis, at) = (AxisAt(jog.Axis), _player.At);
        var way = EndOf(jog, axis) - Along(at, jog.Axis);
        if (jog.IsUp ? way <= 0 : way >= 0)
            return;
        if (!_isOff)
            _origin = at;
        (_jog, _isOff, _isJogging, _leaveEnds) = (jog, true, true, _now + LeaveSeconds);
        var speed = Math.Min(axis.ReferenceSpeedMmS, axis.AccelMmS2 * SlowingSeconds);
        var profile = new Trapezoid(Math.Abs(way), speed, axis.AccelMmS2);
        _player.Begin(Act.Move(ActKind.IdleMove, at, With(at, jog.Axis, Along(at, jog.Axis) + way), profile), _now);
    }

    /// <summary>The place of the last cell that way for the head in use.</summary>
    private double EndOf(Jog jog, Axis axis)
    {
        var tool = _setup.Machine!.Tool(_run?.Position.Head ?? Head.A) ?? _setup.Machine.A;
        var offset = jog.Axis switch { 0 => tool.OffsetXMm, 1 => tool.OffsetYMm, _ => 0 };
        return (jog.IsUp ? (axis.Cells - 1) * axis.PitchMm : 0) - offset;
    }

    private void EndJogging()
    {
        var isMoving = !double.IsInfinity(_leaveEnds) && _player.IsBusy;
        _leaveEnds = double.PositiveInfinity;
        if (isMoving)
            _player.StopSoon(_now); // what is left of it is not done later
    }

    /// <summary>The next move of the way back to where the state left the carriage: Z up first, Z down last; null where it is there.</summary>
    private Act? ReturnAct()
    {
        if (!_isOff)
            return null;
        var (at, to) = (_player.At, _origin);
        if (to.ZMm > at.ZMm)
            to = at with { ZMm = to.ZMm };
        else if (to.XMm != at.XMm || to.YMm != at.YMm)
            to = to with { ZMm = at.ZMm };
        _isOff = to != at;
        _isJogging = _isOff;
        return _isOff ? Act.Move(ActKind.IdleMove, at, to, new Carriage(_setup.Machine!).ProfileAlong(to - at)) : null;
    }

    private Axis AxisAt(byte axis) => axis switch { 0 => _setup.Machine!.X, 1 => _setup.Machine!.Y, _ => _setup.Machine!.Z! };

    private static double Along(Place place, byte axis) => axis switch { 0 => place.XMm, 1 => place.YMm, _ => place.ZMm };

    private static Place With(Place place, byte axis, double value) => axis switch
    {
        0 => place with { XMm = value },
        1 => place with { YMm = value },
        _ => place with { ZMm = value },
    };
}
