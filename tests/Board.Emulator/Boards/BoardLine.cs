using Bridge.Wire;

namespace Board.Emulator;

/// <summary>The host's end of an emulated board's serial line. To wait on it is to let the board run.</summary>
public sealed class BoardLine : ILine
{
    private readonly AvrChip chip;
    private readonly Queue<byte> arrived = new();

    public BoardLine(AvrChip chip)
    {
        this.chip = chip;
        chip.Serial.Sent += Arrive;
    }

    public bool IsOpen => ClosedBecause is null;

    public string? ClosedBecause { get; private set; }

    public void Write(ReadOnlySpan<byte> octets)
    {
        if (IsOpen)
            chip.Serial.Send(octets);
    }

    public int Read(Span<byte> octets)
    {
        var count = 0;
        while (count < octets.Length && arrived.TryDequeue(out var octet))
            octets[count++] = octet;
        return count;
    }

    public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        chip.RunUntil(() => arrived.Count > 0 || !IsOpen, atMost);
        return default;
    }

    /// <summary>The cable is pulled.</summary>
    public void Cut() => Close("the cable is out");

    public void Dispose() => Close("closed by the host");

    private void Arrive(SentOctet one) => arrived.Enqueue(one.Octet);

    private void Close(string why)
    {
        if (!IsOpen)
            return;
        ClosedBecause = why;
        chip.Serial.Sent -= Arrive;
    }
}
