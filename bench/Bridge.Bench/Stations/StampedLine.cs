using System.Diagnostics;
using Bridge.Wire;

namespace Bridge.Bench;

/// <summary>A line that takes note of when it has handed STOP to the system.</summary>
internal sealed class StampedLine(ILine line) : ILine
{
    private long _stopAt;

    public bool IsOpen => line.IsOpen;

    public string? ClosedBecause => line.ClosedBecause;

    /// <summary>When STOP was first written since this was last asked, as Stopwatch counts; 0 if it was not.</summary>
    public long TakeStop() => Interlocked.Exchange(ref _stopAt, 0);

    public void Write(ReadOnlySpan<byte> octets) => line.Write(octets);

    public void Overtake(ReadOnlySpan<byte> octets)
    {
        line.Overtake(octets);
        Interlocked.CompareExchange(ref _stopAt, Stopwatch.GetTimestamp(), 0);
    }

    public int Read(Span<byte> octets) => line.Read(octets);

    public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation) => line.WaitAsync(atMost, cancellation);

    public void Dispose() => line.Dispose();
}
