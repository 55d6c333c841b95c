using System.Diagnostics;
using Bridge.Serial;
using Bridge.Wire;

namespace Bridge.Bench;

/// <summary>The way out of a port, which takes note of when it was asked to hand STOP to the system and when the system had taken it.</summary>
internal sealed class StampedOutput(IPortOutput output) : IPortOutput
{
    private long _askedAt;
    private long _takenAt;

    public bool IsIdle => output.IsIdle;

    /// <summary>Whether STOP has not been taken since it was last asked for.</summary>
    public bool IsAwaited => Volatile.Read(ref _takenAt) == 0;

    /// <summary>When STOP was first handed over since this was last asked, before the call and after it, as Stopwatch counts; 0 if it was not.</summary>
    public (long Asked, long Taken) TakeStop() => (Interlocked.Exchange(ref _askedAt, 0), Interlocked.Exchange(ref _takenAt, 0));

    public int Write(ReadOnlySpan<byte> octets)
    {
        if (!octets.StartsWith(StopOctets.Burst))
            return output.Write(octets);
        Interlocked.CompareExchange(ref _askedAt, Stopwatch.GetTimestamp(), 0);
        var count = output.Write(octets);
        if (count >= StopOctets.Least)
            Interlocked.CompareExchange(ref _takenAt, Stopwatch.GetTimestamp(), 0);
        return count;
    }

    public Task RoomAsync() => output.RoomAsync();

    public void ForgetWhatWaits() => output.ForgetWhatWaits();

    public void Dispose() => output.Dispose();
}
