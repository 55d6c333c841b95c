using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>The host's end of the line to the board. To wait on it lets the world go on.</summary>
internal sealed class SimulatedLine(World world, OneWay toBoard, OneWay toHost) : ILine
{
    private readonly Queue<byte[]> _arrived = new();

    public bool IsOpen => ClosedBecause is null;

    public string? ClosedBecause { get; private set; }

    public OneWay ToBoard => toBoard;

    public OneWay ToHost => toHost;

    public void Write(ReadOnlySpan<byte> octets)
    {
        while (IsOpen && !octets.IsEmpty)
        {
            var length = FrameLength(octets);
            world.Sending(octets[..length]);
            if (IsOpen)
                toBoard.Send(octets[..length], world.Now);
            octets = octets[length..];
        }
    }

    public int Read(Span<byte> octets)
    {
        if (!_arrived.TryPeek(out var first) || first.Length > octets.Length)
            return 0;
        first.CopyTo(octets);
        world.Watch.HostHears(first);
        return _arrived.Dequeue().Length;
    }

    public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation)
    {
        world.Turn(this);
        var until = world.Now + Math.Max((long)atMost.TotalMicroseconds, World.ShortestTurn);
        while (_arrived.Count == 0 && IsOpen && world.Now < until)
            world.Step(Math.Min(World.Quantum, until - world.Now));
        return default;
    }

    /// <summary>The port is closed, or the cable is cut.</summary>
    public void Close(string because) => ClosedBecause ??= because;

    public void Arrive(byte[] octets)
    {
        if (octets.Length > 0)
            _arrived.Enqueue(octets);
    }

    public void Dispose() => Close("closed by the host");

    /// <summary>Up to the flag that closes the first frame, or all.</summary>
    internal static int FrameLength(ReadOnlySpan<byte> octets)
    {
        var opening = octets[0] == FrameFormat.Flag ? 1 : 0;
        var closing = octets[opening..].IndexOf(FrameFormat.Flag);
        return closing < 0 ? octets.Length : opening + closing + 1;
    }
}
