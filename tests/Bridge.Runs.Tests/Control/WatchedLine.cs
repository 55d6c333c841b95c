using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>
/// A line that lets a test look at, and into, every turn of the loop, and that a loop may not spin on: a turn brings octets or lets time pass.
/// </summary>
internal sealed class WatchedLine(ILine line, VirtualTime time) : ILine
{
    private static readonly TimeSpan Longest = TimeSpan.FromHours(2);

    private int _idleTurns;

    /// <summary>Called with the number of each turn, from 0, before its wait.</summary>
    public Action<int>? EachTurn { get; set; }

    /// <summary>Called when all that had arrived is read, before the run looks at the time.</summary>
    public Action? AfterReading { get; set; }

    /// <summary>When STOP went out, burst by burst.</summary>
    public List<TimeSpan> Bursts { get; } = [];

    /// <summary>How long the loop meant to wait at most, turn by turn.</summary>
    public int Turns { get; private set; }

    public bool IsOpen => line.IsOpen;

    public string? ClosedBecause => line.ClosedBecause;

    /// <summary>How many bursts went before what waited to be sent.</summary>
    public int Overtakings { get; private set; }

    public void Write(ReadOnlySpan<byte> octets)
    {
        if (octets.SequenceEqual(StopOctets.Burst))
            Bursts.Add(time.Now);
        line.Write(octets);
    }

    public void Overtake(ReadOnlySpan<byte> octets)
    {
        Bursts.Add(time.Now);
        Overtakings++;
        line.Overtake(octets);
    }

    public int Read(Span<byte> octets)
    {
        var count = line.Read(octets);
        if (count > 0)
            _idleTurns = 0;
        else
            AfterReading?.Invoke();
        return count;
    }

    public async ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation)
    {
        EachTurn?.Invoke(Turns++);
        var before = time.Now;
        await line.WaitAsync(atMost, cancellation);
        _idleTurns = time.Now > before ? 0 : _idleTurns + 1;
        Assert.True(_idleTurns < 4, $"The loop spins at {time.Now}.");
        Assert.True(time.Now < Longest, "The run does not end.");
    }

    public void Dispose() => line.Dispose();
}
