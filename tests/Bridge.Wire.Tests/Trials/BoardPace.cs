namespace Bridge.Wire.Tests;

/// <summary>The pace of a board's main loop.</summary>
/// <param name="Turn">From one turn to the next. In each it takes what has arrived, and looks twice whether the transmitter, of two octets, has room.</param>
/// <param name="Composing">To put a Status together.</param>
internal sealed record BoardPace(TimeSpan Turn, TimeSpan Composing)
{
    /// <summary>The firmware on an ATmega328P while the line is full, as the emulator shows it (bench/Board.Bench, link).</summary>
    public static BoardPace Firmware { get; } = new(TimeSpan.FromMicroseconds(64), TimeSpan.FromMicroseconds(100));

    /// <summary>From one octet that it sends to the next.</summary>
    public TimeSpan Octet => Turn / 4 > TrialLine<byte[]>.Octet ? Turn / 4 : TrialLine<byte[]>.Octet;
}
