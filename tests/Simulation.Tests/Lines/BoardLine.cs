using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>A line without faults, straight to a board.</summary>
internal sealed class BoardLine(Board board) : ILine
{
    private readonly byte[] _arrived = new byte[4096];
    private int _count;

    public bool IsOpen => true;

    public string? ClosedBecause => null;

    public void Write(ReadOnlySpan<byte> octets) => board.Receive(octets);

    public int Read(Span<byte> octets)
    {
        var count = _count;
        _arrived.AsSpan(0, count).CopyTo(octets);
        _count = 0;
        return count;
    }

    public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation)
    {
        board.Advance((long)atMost.TotalMicroseconds);
        _count += board.Take(_arrived.AsSpan(_count));
        return default;
    }

    public void Dispose()
    {
    }
}
