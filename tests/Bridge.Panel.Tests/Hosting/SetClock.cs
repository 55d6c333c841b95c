namespace Bridge.Panel.Tests;

/// <summary>The computer's clock, which somebody sets while a panel is served: the date changes, and time passes as before.</summary>
internal sealed class SetClock(TimeProvider time) : TimeProvider
{
    /// <summary>By how much it was set forward.</summary>
    public TimeSpan Set { get; set; }

    public override long TimestampFrequency => time.TimestampFrequency;

    public override TimeZoneInfo LocalTimeZone => time.LocalTimeZone;

    public override DateTimeOffset GetUtcNow() => time.GetUtcNow() + Set;

    public override long GetTimestamp() => time.GetTimestamp();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        time.CreateTimer(callback, state, dueTime, period);
}
