namespace Bridge.Serial;

/// <summary>How a serial port is opened and used. The defaults suit a board on a USB cable.</summary>
public sealed record SerialLineOptions
{
    /// <summary>Raises the port's DTR output, where it has one. Some boards send only then, and many reset on it. Default false.</summary>
    public bool RaiseDtr { get; init; }

    /// <summary>How long to wait after opening before the line is used, for boards that reset on it, 0 to 5 s. Default 0.</summary>
    public TimeSpan SettlePause { get; init; } = TimeSpan.Zero;

    /// <summary>How often opening is tried in all, 1 to 20. Default 4.</summary>
    public int Tries { get; init; } = 4;

    /// <summary>The middle of the pause before the second try, 1 ms to 10 s; each further pause is about twice as long. Default 100 ms.</summary>
    public TimeSpan FirstPause { get; init; } = TimeSpan.FromMilliseconds(100);

    /// <summary>No pause between tries is longer, 1 ms to 60 s. Default 5 s.</summary>
    public TimeSpan LongestPause { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>The seed of the pauses' jitter. Default 1.</summary>
    public int JitterSeed { get; init; } = 1;

    /// <summary>How long the port may take no octet before the line counts as lost, and how long closing waits for octets to leave,
    /// 10 ms to 30 s. Default 1 s.</summary>
    public TimeSpan WriteTimeout { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Octets that may wait to be sent, 64 to 1 048 576. What was handed over waits behind them, but for STOP,
    /// which overtakes. Default 4096: 82 ms at 500 000 baud.</summary>
    public int OutgoingOctets { get; init; } = 4096;

    /// <summary>Octets that may wait to be read, 64 to 1 048 576; the system holds back what exceeds it. Default 16 384.</summary>
    public int ArrivedOctets { get; init; } = 16384;

    /// <summary>Whether octets leave through the library's stream, as they must where a port is no file. Default: on Windows.</summary>
    internal bool WritesByStream { get; init; } = OperatingSystem.IsWindows();

    /// <summary>Puts something between the line and the port's output, to look at what passes; null for nothing. Default null.</summary>
    internal Func<IPortOutput, IPortOutput>? Between { get; init; }

    /// <summary>Asserts every range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of the range that stands beside it.</exception>
    internal void Check()
    {
        CheckRange(SettlePause, TimeSpan.Zero, TimeSpan.FromSeconds(5), nameof(SettlePause));
        CheckRange(Tries, 1, 20, nameof(Tries));
        CheckRange(FirstPause, TimeSpan.FromMilliseconds(1), TimeSpan.FromSeconds(10), nameof(FirstPause));
        CheckRange(LongestPause, TimeSpan.FromMilliseconds(1), TimeSpan.FromSeconds(60), nameof(LongestPause));
        CheckRange(WriteTimeout, TimeSpan.FromMilliseconds(10), TimeSpan.FromSeconds(30), nameof(WriteTimeout));
        CheckRange(OutgoingOctets, 64, 1 << 20, nameof(OutgoingOctets));
        CheckRange(ArrivedOctets, 64, 1 << 20, nameof(ArrivedOctets));
    }

    private static void CheckRange<T>(T value, T least, T most, string name)
        where T : IComparable<T>
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(value, least, name);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(value, most, name);
    }
}
