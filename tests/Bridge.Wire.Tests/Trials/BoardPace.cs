namespace Bridge.Wire.Tests;

/// <summary>The pace of a board's main loop.</summary>
/// <param name="Turn">From one turn to the next. In each it takes what has arrived, and hands two octets at most to the transmitter, twice.</param>
internal sealed record BoardPace(TimeSpan Turn)
{
    /// <summary>For the trial of the old rule.</summary>
    public TimeSpan MayWait { get; init; }

    /// <summary>From one octet of a Status to the next on the line, which takes 20 us for one.</summary>
    public TimeSpan Octet => Turn / 2 > TimeSpan.FromMicroseconds(20) ? Turn / 2 : TimeSpan.FromMicroseconds(20);
}
