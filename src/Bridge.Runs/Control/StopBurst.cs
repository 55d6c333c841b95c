using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>The sending of STOP: a burst at once and one every 20 ms, until the device says that it aborts, for as long as an answer may take.</summary>
internal sealed class StopBurst(TimeSpan patience)
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(20);

    private bool _isFirst;
    private TimeSpan _next;
    private TimeSpan _end;
    private MachineState _said;

    public bool IsOn { get; private set; }

    /// <summary>Why the device is in the state that it told last.</summary>
    public StateCause Cause { get; private set; }

    /// <summary>Whether the device has said that its drivers are off.</summary>
    public bool IsDone => IsOn && _said == MachineState.Aborted;

    /// <summary>When the next burst is due, or the sending is given up.</summary>
    public TimeSpan NextDeadline => !IsOn ? TimeSpan.MaxValue : IsHeard || _end < _next ? _end : _next;

    private bool IsHeard => _said is MachineState.Aborting or MachineState.Aborted;

    /// <summary>From now on STOP is said. Where a burst has gone before all that waits already, those from here on wait their turn.</summary>
    public void Begin(TimeSpan now, bool isSaid = false) => (IsOn, _isFirst, _next, _end, _said) = (true, !isSaid, now, now + patience, MachineState.Undefined);

    /// <summary>Takes a state that the device told since <see cref="Begin"/>.</summary>
    public void Hear(MachineState state, StateCause cause) => (_said, Cause) = (state, cause);

    /// <summary>Whether the device has not said in time that it stopped.</summary>
    public bool IsOverdue(TimeSpan now) => IsOn && !IsDone && now >= _end;

    /// <summary>Says a burst where one is due. The first goes before all that waits to be sent.</summary>
    public void SayTo(ILine line, TimeSpan now)
    {
        if (!IsOn || IsHeard || now < _next)
            return;
        _next = now + Interval;
        if (_isFirst)
            line.Overtake(StopOctets.Burst);
        else
            line.Write(StopOctets.Burst);
        _isFirst = false;
    }
}
