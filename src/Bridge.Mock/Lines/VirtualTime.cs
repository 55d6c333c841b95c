namespace Bridge.Mock;

/// <summary>A clock that stands still until it is moved; timers made from it fire as it passes them, in order.</summary>
public sealed class VirtualTime : TimeProvider
{
    private readonly Lock _lock = new();
    private readonly List<VirtualTimer> _timers = [];
    private TimeSpan _now;

    /// <summary>Time since its beginning.</summary>
    public TimeSpan Now
    {
        get
        {
            lock (_lock)
                return _now;
        }
    }

    /// <inheritdoc/>
    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    /// <inheritdoc/>
    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

    /// <inheritdoc/>
    public override long GetTimestamp() => Now.Ticks;

    /// <summary>Its beginning is 2000-01-01 in UTC.</summary>
    public override DateTimeOffset GetUtcNow() => new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero) + Now;

    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = new VirtualTimer(this, () => callback(state));
        timer.Change(dueTime, period);
        return timer;
    }

    /// <summary>Moves on to a time since its beginning; to one that is past it does not move.</summary>
    public void AdvanceTo(TimeSpan time)
    {
        while (NextDue(time) is { } timer)
            timer.Fire();
        lock (_lock)
            _now = time > _now ? time : _now;
    }

    private VirtualTimer? NextDue(TimeSpan upTo)
    {
        lock (_lock)
        {
            var next = _timers.Where(timer => timer.Due <= upTo).MinBy(timer => timer.Due);
            if (next is not null && next.Due > _now)
                _now = next.Due;
            next?.SetNext();
            return next;
        }
    }

    private sealed class VirtualTimer(VirtualTime time, Action callback) : ITimer
    {
        private TimeSpan _period;

        public TimeSpan Due { get; private set; } = TimeSpan.MaxValue;

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            lock (time._lock)
            {
                time._timers.Remove(this);
                _period = period;
                if (dueTime == Timeout.InfiniteTimeSpan)
                    return true;
                Due = time._now + dueTime;
                time._timers.Add(this);
                return true;
            }
        }

        public void SetNext()
        {
            if (_period > TimeSpan.Zero)
                Due += _period;
            else
                time._timers.Remove(this);
        }

        public void Fire() => callback();

        public void Dispose() => Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);

        public ValueTask DisposeAsync()
        {
            Dispose();
            return default;
        }
    }
}
