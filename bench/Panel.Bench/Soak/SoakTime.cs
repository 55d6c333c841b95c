using Bridge.Mock;

namespace Panel.Bench;

/// <summary>
/// The clock of a soak, for the panel and the machine alike: virtual, and so many times as fast as a real one. It passes no moment at which the event stream
/// is due before the stream has sent: a page gets all that it would get in real time.
/// </summary>
internal sealed class SoakTime : TimeProvider
{
    private static readonly TimeSpan EventInterval = TimeSpan.FromMilliseconds(50); // the event stream's own, by which it is known here
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    private readonly Lock _door = new();
    private TimeSpan _armedAt;
    private TaskCompletionSource _armed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private TimeSpan _virtualFrom;
    private long _realFrom = TimeProvider.System.GetTimestamp();
    private int _speed = 1;

    /// <summary>What waiting on the machine's line moves.</summary>
    public VirtualTime Clock { get; } = new();

    /// <summary>How many times as fast as a real clock it is.</summary>
    public int Speed
    {
        get => _speed;
        set
        {
            if (value != _speed)
                PaceFromNow(value);
        }
    }

    public override long TimestampFrequency => Clock.TimestampFrequency;

    public override TimeZoneInfo LocalTimeZone => Clock.LocalTimeZone;

    public override long GetTimestamp() => Clock.GetTimestamp();

    public override DateTimeOffset GetUtcNow() => Clock.GetUtcNow();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = Clock.CreateTimer(callback, state, dueTime, period);
        if (dueTime != EventInterval)
            return timer;
        TaskCompletionSource armed;
        lock (_door)
            (_armedAt, armed, _armed) = (Clock.Now, _armed, new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));
        armed.SetResult();
        return timer;
    }

    /// <summary>Waits until the event stream has sent what is due by now; gives how long nothing more is.</summary>
    public async Task<TimeSpan> UntilDueAsync()
    {
        while (true)
        {
            Task armed;
            TimeSpan left;
            lock (_door)
                (armed, left) = (_armed.Task, _armedAt + EventInterval - Clock.Now);
            if (left > TimeSpan.Zero)
                return left;
            await armed.WaitAsync(Patience);
        }
    }

    /// <summary>What was missed is not made up for.</summary>
    public void PaceFromNow() => PaceFromNow(_speed);

    /// <summary>Waits where the virtual clock is ahead of the real one.</summary>
    public Task PaceAsync()
    {
        var ahead = (Clock.Now - _virtualFrom) / _speed - TimeProvider.System.GetElapsedTime(_realFrom);
        return ahead > TimeSpan.FromMilliseconds(2) ? Task.Delay(ahead) : Task.CompletedTask;
    }

    private void PaceFromNow(int speed) => (_speed, _virtualFrom, _realFrom) = (speed, Clock.Now, TimeProvider.System.GetTimestamp());
}
