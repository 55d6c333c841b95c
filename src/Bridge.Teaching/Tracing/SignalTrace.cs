using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Teaching;

/// <summary>A trace under way: acts become steps as time goes on, and values are set at the present. Times are in seconds and never go back.</summary>
internal sealed class SignalTrace : IDisposable
{
    private const double TicksPerSecond = 1e7;

    private static readonly TraceSignal[] Steps = [TraceSignal.StepX, TraceSignal.StepY, TraceSignal.StepZ];
    private static readonly AxisName[] Axes = Enum.GetValues<AxisName>();
    private static readonly TraceSignal[] Directions = [TraceSignal.DirX, TraceSignal.DirY, TraceSignal.DirZ];

    private readonly VcdWriter _vcd;
    private readonly Place _stepsPerUnit;
    private readonly long[] _pulseTicks;
    private readonly long[] _fallsAt = [long.MaxValue, long.MaxValue, long.MaxValue];
    private readonly long[] _roseAt = [-1, -1, -1];
    private List<(double Seconds, AxisName Axis)> _pulses = [];
    private int _nextPulse;
    private double _began;
    private long _ticks;
    private long _made;

    /// <param name="vcd">Where it is written.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="stepsPerUnit">Steps for one unit of an act's lengths, for each axis.</param>
    public SignalTrace(VcdWriter vcd, Machine machine, Place stepsPerUnit)
    {
        (_vcd, _stepsPerUnit) = (vcd, stepsPerUnit);
        _pulseTicks = [PulseOf(machine.X, "axes.x"), PulseOf(machine.Y, "axes.y"), machine.Z is { } z ? PulseOf(z, "axes.z") : 1];
    }

    /// <summary>How long a step is high, in ticks of 100 ns: 2 µs, or half of the axis' shortest interval if that is less.</summary>
    public const int PulseTicks = 20;

    /// <summary>The most steps that a trace holds: 20 million, some 500 MB.</summary>
    public const long MostSteps = 20_000_000;

    /// <summary>Another act is being done from now on; the default one for none.</summary>
    public void Begin(Act act, double began, double now)
    {
        AdvanceTo(now);
        (_pulses, _nextPulse, _began) = (ActPulses.Of(act, _stepsPerUnit), 0, began);
        while (_nextPulse < _pulses.Count && began + _pulses[_nextPulse].Seconds < now)
            _nextPulse++; // it goes on with what another began
        foreach (var axis in Axes)
            if (ActPulses.IsGrowing(act, axis) is { } grows)
                Set(Directions[(int)axis], grows ? 1 : 0);
    }

    /// <summary>Goes on to a time.</summary>
    public void AdvanceTo(double now)
    {
        for (; _nextPulse < _pulses.Count && _began + _pulses[_nextPulse].Seconds <= now; _nextPulse++)
            Rise((int)_pulses[_nextPulse].Axis, TicksOf(_began + _pulses[_nextPulse].Seconds));
        _ticks = Math.Max(_ticks, TicksOf(now));
        FallUpTo(_ticks);
    }

    /// <summary>A line has a value from now on.</summary>
    public void Set(TraceSignal signal, long value) => _vcd.Set(signal, value, _ticks);

    public void Dispose()
    {
        FallUpTo(long.MaxValue - 1);
        _vcd.MoveTo(_ticks + 1);
        _vcd.Dispose();
    }

    private void Rise(int axis, long ticks)
    {
        if (++_made > MostSteps)
            throw new RefusedException("the trace", $"more than {MostSteps} steps", $"up to {MostSteps}, some 500 MB", "Trace fewer records: --records N.");
        ticks = Math.Max(Math.Max(ticks, _ticks), _roseAt[axis] + 2); // a step is low again before the next
        _fallsAt[axis] = Math.Min(_fallsAt[axis], ticks - 1);
        FallUpTo(ticks);
        _ticks = ticks;
        _vcd.Set(Steps[axis], 1, ticks);
        (_roseAt[axis], _fallsAt[axis]) = (ticks, ticks + _pulseTicks[axis]);
    }

    private void FallUpTo(long ticks)
    {
        while (true)
        {
            var first = 0;
            for (var axis = 1; axis < _fallsAt.Length; axis++)
                if (_fallsAt[axis] < _fallsAt[first])
                    first = axis;
            if (_fallsAt[first] > ticks)
                return;
            _vcd.Set(Steps[first], 0, _fallsAt[first]);
            _ticks = Math.Max(_ticks, _fallsAt[first]);
            _fallsAt[first] = long.MaxValue;
        }
    }

    private static long PulseOf(Axis axis, string name)
    {
        var shortest = TicksPerSecond / (axis.TopSpeedMmS * axis.StepsPerMm);
        return shortest >= 4
            ? Math.Min(PulseTicks, (long)shortest / 2)
            : throw new RefusedException(name, $"steps that follow one another in {shortest * 100:0} ns", "400 ns and up in a trace of 100 ns",
                "Lower top_speed_mm_s or steps_per_mm.");
    }

    private static long TicksOf(double seconds) => (long)Math.Round(seconds * TicksPerSecond);
}
