namespace Bridge.Serial;

/// <summary>A port's output through its stream, one write at a time, on systems where a port is no file.</summary>
internal sealed class StreamOutput(Stream stream) : IPortOutput
{
    // What must leave within the write time-out at once: 0.27 s at 9600 baud, ten bits to an octet.
    private const int MostOctets = 256;

    private readonly byte[] octetsUnderWay = new byte[MostOctets];
    private readonly CancellationTokenSource over = new();
    private volatile Task underWay = Task.CompletedTask;
    private Task? forgotten;

    /// <inheritdoc/>
    public bool IsIdle => underWay.IsCompleted;

    /// <inheritdoc/>
    public int Write(ReadOnlySpan<byte> octets)
    {
        if (!underWay.IsCompleted)
            return 0;
        if (underWay != forgotten)
            underWay.GetAwaiter().GetResult(); // throws what went wrong with it
        var count = Math.Min(octets.Length, MostOctets);
        octets[..count].CopyTo(octetsUnderWay);
        underWay = stream.WriteAsync(octetsUnderWay.AsMemory(0, count), over.Token).AsTask();
        return count;
    }

    /// <inheritdoc/>
    public Task RoomAsync() => Task.WhenAny(underWay);

    /// <inheritdoc/>
    public void ForgetWhatWaits() => forgotten = underWay;

    /// <inheritdoc/>
    public void Dispose()
    {
        over.Cancel();
        over.Dispose();
    }
}
