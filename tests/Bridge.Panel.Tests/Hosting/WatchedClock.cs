namespace Bridge.Panel.Tests;

/// <summary>A clock that calls somebody whenever a program looks at it: between any two of its looks something can be asked of the program.</summary>
internal sealed class WatchedClock(TimeProvider time, Action looked) : TimeProvider
{
    public override long TimestampFrequency => time.TimestampFrequency;

    public override DateTimeOffset GetUtcNow() => time.GetUtcNow();

    public override long GetTimestamp()
    {
        looked();
        return time.GetTimestamp();
    }
}
