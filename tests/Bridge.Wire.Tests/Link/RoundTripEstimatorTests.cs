using System.Globalization;

namespace Bridge.Wire.Tests;

public class RoundTripEstimatorTests
{
    // A TimeSpan counts in 0.1 us, and the errors of rounding add up.
    private const double ToleranceUs = 1;

    // Computed from RFC 6298, section 2: G = 10 ms, no floor.
    [Fact]
    public void The_trace_is_the_golden_one()
    {
        var estimator = new RoundTripEstimator(Ms(10), Ms(1000), TimeSpan.Zero, Ms(60_000));
        foreach (var row in Vectors.Read("estimator.txt"))
        {
            estimator.Sample(TimeSpan.FromMicroseconds(Us(row[0])));
            Assert.Equal(Us(row[1]), estimator.Smoothed!.Value.TotalMicroseconds, ToleranceUs);
            Assert.Equal(Us(row[2]), estimator.Variation.TotalMicroseconds, ToleranceUs);
            Assert.Equal(Us(row[3]), estimator.Timeout.TotalMicroseconds, ToleranceUs);
        }
    }

    [Fact]
    public void The_granularity_is_the_least_margin()
    {
        var estimator = new RoundTripEstimator(Ms(10), Ms(1000), TimeSpan.Zero, Ms(60_000));
        for (var i = 0; i < 100; i++)
            estimator.Sample(Ms(100));
        Assert.Equal(110, estimator.Timeout.TotalMilliseconds, tolerance: 0.01);
    }

    [Fact]
    public void The_timeout_doubles_up_to_the_cap_and_a_sample_brings_it_back()
    {
        var estimator = new RoundTripEstimator(Ms(1), Ms(250), Ms(20), Ms(2000));
        var seen = new List<double>();
        for (var i = 0; i < 5; i++)
        {
            seen.Add(estimator.Timeout.TotalMilliseconds);
            estimator.BackOff();
        }
        Assert.Equal([250, 500, 1000, 2000, 2000], seen);
        estimator.Sample(Ms(30));
        Assert.Equal(Ms(90), estimator.Timeout);
    }

    [Fact]
    public void The_timeout_never_falls_below_the_floor()
    {
        var estimator = new RoundTripEstimator(Ms(1), Ms(250), Ms(20), Ms(2000));
        for (var i = 0; i < 20; i++)
            estimator.Sample(Ms(1));
        Assert.Equal(Ms(20), estimator.Timeout);
    }

    [Theory]
    [InlineData(-1, 250, 20, 2000)]
    [InlineData(1, 250, -1, 2000)]
    [InlineData(1, 19, 20, 2000)]
    [InlineData(1, 250, 20, 249)]
    public void Bounds_out_of_order_are_our_own_mistake(double granularity, double initial, double floor, double cap) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoundTripEstimator(Ms(granularity), Ms(initial), Ms(floor), Ms(cap)));

    [Fact]
    public void A_round_trip_below_zero_is_our_own_mistake() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoundTripEstimator(Ms(1), Ms(250), Ms(20), Ms(2000)).Sample(Ms(-1)));

    private static TimeSpan Ms(double milliseconds) => TimeSpan.FromMilliseconds(milliseconds);

    private static double Us(string microseconds) => double.Parse(microseconds, CultureInfo.InvariantCulture);
}
