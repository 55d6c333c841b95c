using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>How readings scatter, in words.</summary>
internal static class SpreadWords
{
    private const int Few = 5;

    /// <summary>Mean, standard deviation and range, in a unit if there is one.</summary>
    public static string Of(Spread spread, string unit = "")
    {
        var words = FormattableString.Invariant($"{spread.Count} readings: mean {spread.Mean:0.####}{unit}, ")
            + FormattableString.Invariant($"standard deviation {spread.Deviation:0.####}{unit}, range {spread.Range:0.####}{unit}.");
        return spread.Count < Few ? $"{words} Fewer than {Few} tell little." : words;
    }
}
