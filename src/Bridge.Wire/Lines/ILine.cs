namespace Bridge.Wire;

/// <summary>
/// A two-way line of octets to a device: a serial port, or a device in the same process. Used by one caller at a time, but for
/// <see cref="Overtake"/>, which any thread may call at any moment.
/// </summary>
public interface ILine : IDisposable
{
    /// <summary>True until the line is closed by either end or by a fault; it never becomes true again.</summary>
    bool IsOpen { get; }

    /// <summary>Why the line is closed, in plain words; null while it is open.</summary>
    string? ClosedBecause { get; }

    /// <summary>Hands over octets to be sent, in order. On a closed line they are dropped: expected trouble shows in <see cref="IsOpen"/>.</summary>
    void Write(ReadOnlySpan<byte> octets);

    /// <summary>Hands over octets that go before all that wait to be sent, which are dropped: for STOP. The link repeats what is still wanted.
    /// A line where nothing waits only writes.</summary>
    void Overtake(ReadOnlySpan<byte> octets) => Write(octets);

    /// <summary>Takes octets that have arrived, at most the length of <paramref name="octets"/>; 0 if there are none. Never waits.</summary>
    int Read(Span<byte> octets);

    /// <summary>Returns when octets can be read, when the line has closed, or after <paramref name="atMost"/>.
    /// On a device that lives in virtual time this is what moves its clock.</summary>
    ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation);
}
