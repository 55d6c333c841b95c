using CsCheck;
using MathNet.Numerics.Statistics;

namespace Bridge.History.Tests;

public class PairedTestTests
{
    [Fact]
    public void The_sleep_of_ten_patients_has_the_published_figures()
    {
        // Student, The Probable Error of a Mean, Biometrika 6 (1908): the additional hours of sleep by the second drug over the first; mean 1.58.
        // R's documentation of its data set sleep prints t = 4.0621, df = 9, p-value = 0.002833 for the paired test (from memory).
        var test = PairedTest.Of([1.2, 2.4, 1.3, 1.3, 0.0, 1.0, 1.8, 0.8, 4.6, 1.4]);
        Assert.Equal((10, 1.58), (test.Pairs, Math.Round(test.Mean, 10)));
        Assert.Equal(4.0621, test.T, 5e-5);
        Assert.Equal(0.002833, test.Chance, 5e-7);
        Assert.True(test.IsMoreThanNoise);
    }

    [Theory]
    [InlineData(2, 12.706)] // NIST/SEMATECH e-Handbook, 1.3.6.7.2, critical values of Student's t, two-sided 5 % (from memory)
    [InlineData(6, 2.571)]
    [InlineData(11, 2.228)]
    [InlineData(31, 2.042)]
    [InlineData(101, 1.984)]
    public void A_mean_at_the_tables_critical_value_has_a_chance_of_five_per_cent(int pairs, double critical)
    {
        // Values of mean m and deviation 1: m as far out as the table says.
        var values = Enumerable.Range(0, pairs).Select(index => (double)index).ToArray();
        var (mean, deviation) = (values.Average(), values.StandardDeviation());
        var test = PairedTest.Of([.. values.Select(value => (value - mean) / deviation + critical / Math.Sqrt(pairs))]);
        Assert.Equal(critical, test.T, 1e-9);
        Assert.Equal(0.05, test.Chance, 5e-5);
    }

    [Fact]
    public void Nothing_but_zeros_is_noise_and_a_difference_without_scatter_is_none()
    {
        Assert.Equal((0.0, 1.0), (PairedTest.Of([0, 0, 0]).T, PairedTest.Of([0, 0, 0]).Chance));
        Assert.Equal(0.0, PairedTest.Of([0.5, 0.5, 0.5]).Chance);
    }

    [Fact]
    public void Noise_without_a_difference_is_called_more_than_noise_one_time_in_twenty()
    {
        var noise = Gen.Double[-1, 1].Array[12];
        var called = 0;
        var random = new Random(5);
        for (var trial = 0; trial < 4000; trial++)
            if (PairedTest.Of([.. Enumerable.Range(0, 12).Select(_ => MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1))]).IsMoreThanNoise)
                called++;
        Assert.InRange(called, 150, 250); // 200 of 4000, within 3.6 standard deviations
        noise.Sample(values => PairedTest.Of(values).Chance is >= 0 and <= 1);
    }
}
