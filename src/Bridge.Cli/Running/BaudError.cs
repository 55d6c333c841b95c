namespace Bridge.Cli;

/// <summary>How far a controller at 16 MHz misses a baud rate.</summary>
internal static class BaudError
{
    /// <summary>The largest error that is recommended for eight data bits at double speed, in percent (ATmega8A datasheet, table 24-3).</summary>
    public const double MostPercent = 1.5;

    private const double ClockHz = 16e6;

    /// <summary>The error in percent at double speed, the divider being a whole number: UBRR = clock / (8 baud) - 1 (ATmega328P datasheet, USART).</summary>
    public static double Percent(int baud)
    {
        var divider = Math.Max(1, Math.Round(ClockHz / (8.0 * baud)));
        return 100 * (ClockHz / (8 * divider) / baud - 1);
    }

    /// <summary>A caution in one line; null for a rate that such a controller meets.</summary>
    public static string? Caution(int baud) => Percent(baud) is var error && Math.Abs(error) > MostPercent
        ? FormattableString.Invariant($"Caution: a controller that runs at 16 MHz misses {baud} baud by {error:+0.0;-0.0} %, ")
            + FormattableString.Invariant($"more than the {MostPercent} % that is recommended: ")
            + "frames may be damaged and sent again. 250000 and 500000 baud are exact; set the board and the machine file alike."
        : null;
}
