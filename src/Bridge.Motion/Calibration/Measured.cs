using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>A quantity and its standard uncertainty, in the same unit (GUM, JCGM 100:2008).</summary>
/// <param name="Value">The best estimate.</param>
/// <param name="Uncertainty">The standard uncertainty, 0 and up.</param>
public readonly record struct Measured(double Value, double Uncertainty)
{
    /// <summary>The coverage factor of <see cref="Expanded"/>: about 95 % where errors are normal (GUM 6.3).</summary>
    public const double Coverage = 2;

    private const int MostReadings = 1000;

    /// <summary>The expanded uncertainty, with a coverage factor of 2.</summary>
    public double Expanded => Coverage * Uncertainty;

    /// <summary>
    /// The mean of readings. Its uncertainty is that of their scatter, s / sqrt(n) (type A, GUM 4.2.3), and that of the scale's division, within which a
    /// reading is anywhere with equal chance, division / (2 sqrt(3)) (type B, GUM 4.3.7). One reading alone tells nothing of scatter.
    /// </summary>
    /// <param name="where">What refusals name.</param>
    /// <param name="readings">1 to 1000 of them.</param>
    /// <param name="division">The smallest division that is read, above 0.</param>
    /// <exception cref="RefusedException">There are none or too many, or one is no number.</exception>
    public static Measured Of(string where, IReadOnlyList<double> readings, double division)
    {
        if (readings.Count is < 1 or > MostReadings)
            throw new RefusedException(where, $"{readings.Count} readings", $"1 to {MostReadings}", "Measure, and give what was read.");
        if (readings.FirstOrDefault(reading => !double.IsFinite(reading), 0) is var odd and not 0)
            throw new RefusedException(where, $"{odd}", "a number", "Read it again.");
        if (!(division > 0) || !double.IsFinite(division))
            throw new RefusedException(where, FormattableString.Invariant($"a division of {division}"), "above 0",
                "Give the ruler's smallest division that you read, such as 0.5.");
        var scatter = readings.Count > 1 ? Spread.Of(readings).OfMean : 0;
        return new Measured(readings.Average(), Combined(scatter, division / (2 * Math.Sqrt(3))));
    }

    /// <summary>The difference of two that have nothing to do with one another.</summary>
    public static Measured operator -(Measured one, Measured other) => new(one.Value - other.Value, Combined(one.Uncertainty, other.Uncertainty));

    /// <summary>The combined standard uncertainty of independent parts: the root of the sum of their squares (GUM 5.1.2).</summary>
    public static double Combined(params ReadOnlySpan<double> parts)
    {
        var sum = 0.0;
        foreach (var part in parts)
            sum += part * part;
        return Math.Sqrt(sum);
    }
}
