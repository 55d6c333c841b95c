namespace Bridge.Cli;

/// <summary>Times as people say them.</summary>
internal static class Durations
{
    /// <summary>Seconds as 4.2 s, 3 min 05 s or 2 h 07 min.</summary>
    public static string Of(double seconds) => seconds switch
    {
        < 59.95 => FormattableString.Invariant($"{seconds:0.0} s"),
        < 3599.5 => $"{(int)Math.Round(seconds) / 60} min {(int)Math.Round(seconds) % 60:00} s",
        _ => $"{(long)Math.Round(seconds / 60) / 60} h {(long)Math.Round(seconds / 60) % 60:00} min",
    };
}
