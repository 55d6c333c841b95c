namespace Bridge.Wire;

/// <summary>The bounds of the host's end of the link. The defaults suit serial lines from 115 200 baud.</summary>
public sealed record LinkSettings
{
    /// <summary>Messages in flight, 1 to 127. Default 10: they fill a line of 500 000 baud whose round trip is 10 ms longer than what it carries.</summary>
    public int Window { get; init; } = 10;

    /// <summary>Time-out before the first round trip has been measured. Default 250 ms.</summary>
    public TimeSpan InitialTimeout { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>Shortest time-out. Default 20 ms; RFC 6298 has 1 s.</summary>
    public TimeSpan TimeoutFloor { get; init; } = TimeSpan.FromMilliseconds(20);

    /// <summary>Longest time-out. Default 2 s.</summary>
    public TimeSpan TimeoutCap { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>The clock's granularity, G in RFC 6298. Default 1 ms.</summary>
    public TimeSpan Granularity { get; init; } = TimeSpan.FromMilliseconds(1);

    /// <summary>Retransmissions in a row without an answer before the line is given up. Default 8.</summary>
    public int MaxRetransmissions { get; init; } = 8;

    /// <summary>A Beat is sent when nothing else has been for this long. Default 100 ms.</summary>
    public TimeSpan BeatInterval { get; init; } = TimeSpan.FromMilliseconds(100);

    /// <summary>An open line on which no good frame of the board has arrived for this long is given up. Default 2 s.</summary>
    public TimeSpan SilenceLimit { get; init; } = TimeSpan.FromSeconds(2);
}
