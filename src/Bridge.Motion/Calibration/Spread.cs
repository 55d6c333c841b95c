using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>How readings of the same thing scatter.</summary>
/// <param name="Count">How many there are.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Deviation">Their sample standard deviation, with n - 1.</param>
/// <param name="Range">From the least to the greatest.</param>
public readonly record struct Spread(int Count, double Mean, double Deviation, double Range)
{
    /// <summary>The standard deviation of the mean, s / sqrt(n).</summary>
    public double OfMean => Deviation / Math.Sqrt(Count);

    /// <summary>Of two readings or more.</summary>
    /// <exception cref="RefusedException">There are fewer.</exception>
    public static Spread Of(IReadOnlyList<double> readings)
    {
        if (readings.Count < 2)
            throw new RefusedException("readings", $"{readings.Count}", "2 or more", "One reading says nothing of how they scatter: take more.");
        var mean = readings.Average();
        var squares = readings.Sum(reading => (reading - mean) * (reading - mean)); // twice through, which loses no digits
        return new Spread(readings.Count, mean, Math.Sqrt(squares / (readings.Count - 1)), readings.Max() - readings.Min());
    }
}
