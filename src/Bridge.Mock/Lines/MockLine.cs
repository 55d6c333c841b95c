using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>The host's end of a simulated line.</summary>
internal sealed class MockLine(MockPort port, TimeProvider time) : ILine
{
    private readonly Queue<byte[]> _arrived = new();
    private int _taken; // octets of the first that were read
    private volatile string? _closedBecause;

    public bool IsOpen => _closedBecause is null;

    public string? ClosedBecause => _closedBecause;

    private bool HasArrived => _arrived.Count > 0;

    public void Write(ReadOnlySpan<byte> octets) => port.Write(this, octets);

    public void Overtake(ReadOnlySpan<byte> octets) => port.Overtake(this, octets);

    public int Read(Span<byte> octets)
    {
        port.Pump(this, out _);
        var read = 0;
        lock (_arrived)
            while (read < octets.Length && _arrived.TryPeek(out var first))
                read += Take(first, octets[read..]);
        return read;
    }

    public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation) =>
        time is VirtualTime clock ? PassVirtually(clock, atMost, cancellation) : WaitReally(atMost, cancellation);

    public void Dispose() => port.Close(this, "closed by the host");

    internal void Arrive(byte[] octets)
    {
        lock (_arrived)
            _arrived.Enqueue(octets);
    }

    internal void CloseBecause(string because) => _closedBecause ??= because;

    private ValueTask PassVirtually(VirtualTime clock, TimeSpan atMost, CancellationToken cancellation)
    {
        var until = clock.Now + atMost;
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            var next = port.Pump(this, out var now);
            if (HasArrived || !IsOpen || clock.Now >= until)
                return default;
            clock.AdvanceTo(next is { } due && clock.Now + (due - now) < until ? clock.Now + (due - now) : until);
        }
    }

    private async ValueTask WaitReally(TimeSpan atMost, CancellationToken cancellation)
    {
        var begun = time.GetTimestamp();
        while (true)
        {
            var next = port.Pump(this, out var now);
            var left = atMost - time.GetElapsedTime(begun);
            if (HasArrived || !IsOpen || left <= TimeSpan.Zero)
                return;
            var due = next - now;
            await Task.Delay(due < left ? Longer(due.Value) : left, time, cancellation).ConfigureAwait(false);
        }
    }

    private int Take(byte[] first, Span<byte> octets)
    {
        var part = first.AsSpan(_taken);
        var length = Math.Min(part.Length, octets.Length);
        part[..length].CopyTo(octets);
        _taken += length;
        if (_taken == first.Length)
        {
            _arrived.Dequeue();
            _taken = 0;
        }

        return length;
    }

    /// <summary>At least a timer's granularity: a shorter wait would only spin.</summary>
    private static TimeSpan Longer(TimeSpan due) => due > TimeSpan.FromMilliseconds(1) ? due : TimeSpan.FromMilliseconds(1);
}
