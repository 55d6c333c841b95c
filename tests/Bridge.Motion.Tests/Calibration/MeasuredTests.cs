using Bridge.Jobs;
using MathNet.Numerics.Statistics;

namespace Bridge.Motion.Tests;

public class MeasuredTests
{
    // JCGM 100:2008 (GUM), table 1: 20 observations of a temperature in degrees Celsius (from memory).
    private static readonly double[] Temperatures =
    [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ];

    [Fact]
    public void The_worked_example_of_the_GUM_comes_out()
    {
        var spread = Spread.Of(Temperatures);
        Assert.Equal(100.145, spread.Mean, 5e-4); // 4.4.3 of the GUM (from memory): mean 100.145, s 1.489, s of the mean 0.333
        Assert.Equal(1.489, spread.Deviation, 5e-4);
        Assert.Equal(0.333, spread.OfMean, 5e-4);
        Assert.Equal(0.333, Measured.Of("t", Temperatures, 0.01).Uncertainty, 5e-4);
    }

    [Fact]
    public void One_reading_has_the_uncertainty_of_the_scales_division()
    {
        // 4.4.5 of the GUM (from memory): between 96 and 104 with equal chance, the standard uncertainty is 4 / sqrt(3) = 2.3.
        var measured = Measured.Of("t", [100], division: 8);
        Assert.Equal((100, 2.3), (measured.Value, Math.Round(measured.Uncertainty, 1)));
        Assert.Equal(2 * measured.Uncertainty, measured.Expanded);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Spreads_are_those_of_a_reference_library(int seed)
    {
        var random = new Random(seed);
        var readings = Enumerable.Range(0, 2 + random.Next(30)).Select(_ => 1e6 + random.NextDouble()).ToArray();
        var spread = Spread.Of(readings);
        Assert.Equal(readings.Mean(), spread.Mean, 1e-9);
        Assert.Equal(readings.StandardDeviation(), spread.Deviation, 1e-9);
        Assert.Equal(readings.Maximum() - readings.Minimum(), spread.Range, 1e-9);
    }

    [Theory]
    [InlineData(new double[0], 0.5)]
    [InlineData(new[] { double.NaN }, 0.5)]
    [InlineData(new[] { 1, double.PositiveInfinity }, 0.5)]
    [InlineData(new[] { 1.0 }, 0)]
    [InlineData(new[] { 1.0 }, -1)]
    [InlineData(new[] { 1.0 }, double.NaN)]
    public void What_is_no_reading_is_refused(double[] readings, double division) =>
        Assert.Throws<RefusedException>(() => Measured.Of("t", readings, division));

    [Fact]
    public void A_difference_has_the_uncertainty_of_both()
    {
        var difference = new Measured(5, 0.3) - new Measured(3, 0.4);
        Assert.Equal((2.0, 0.5), (difference.Value, Math.Round(difference.Uncertainty, 12)));
    }
}
