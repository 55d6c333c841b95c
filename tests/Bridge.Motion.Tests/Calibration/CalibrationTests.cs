using Bridge.Jobs;

namespace Bridge.Motion.Tests;

public class CalibrationTests
{
    private static readonly Machine Gantry = TestMachines.Of(TestMachines.Dot(), TestMachines.Dot(x: -25), y: TestMachines.Axis(backlash: 0.05));

    [Fact]
    public void A_way_that_came_out_short_asks_for_more_steps()
    {
        var scale = Calibrations.Scale(Gantry, AxisName.X, told: 60, new Measured(59.4, 0.1));
        Assert.Equal("axes.x.steps_per_mm", scale.Key);
        Assert.Equal(Gantry.X.StepsPerMm * 60 / 59.4, scale.After.Value, 1e-9);
        Assert.Equal(scale.After.Value * 0.1 / 59.4, scale.After.Uncertainty, 1e-9);
        Assert.True(scale.IsSure);
        Assert.False(Calibrations.Scale(Gantry, AxisName.X, told: 60, new Measured(59.9, 0.1)).IsSure);
    }

    [Theory]
    [InlineData(60, 6, "cm")]
    [InlineData(60, 2.36, "inches")]
    [InlineData(60, 200, "Measure again")]
    [InlineData(0, 60, "told")]
    [InlineData(60, 0, "measured")]
    [InlineData(60, -3, "measured")]
    [InlineData(double.NaN, 60, "told")]
    public void Absurd_ways_are_refused_with_a_guess(double told, double measured, string word)
    {
        var refused = Assert.Throws<RefusedException>(() => Calibrations.Scale(Gantry, AxisName.X, told, new Measured(measured, 0.1)));
        Assert.Contains(word, $"{refused.Refusals[0]}");
    }

    [Fact]
    public void How_well_a_zero_is_found_is_kept_as_readings_mean_and_deviation()
    {
        var found = Calibrations.Repeat(Gantry, AxisName.Y, Spread.Of([0, 0.02, -0.01, 0.01, 0.03]));
        Assert.Equal(["axes.y.repeat_readings", "axes.y.repeat_mean_mm", "axes.y.repeat_deviation_mm"], found.Select(value => value.Key));
        Assert.Equal(5, found[0].After.Value);
        Assert.Equal(0.01, found[1].After.Value, 1e-12);
        Assert.Equal(Math.Sqrt(0.001 / 4), found[2].After.Value, 1e-12); // squares of 1, 1, 2, 0 and 2 hundredths
        Assert.Equal(Math.Sqrt(0.001 / 4 / 5), found[1].After.Uncertainty, 1e-12);
        Assert.All(found, value => Assert.True(value.IsFinding && value.Before == 0));
    }

    [Fact]
    public void Play_is_what_the_file_says_and_what_is_left_of_it()
    {
        var play = Calibrations.Backlash(Gantry, AxisName.Y, new Measured(30.00, 0.02), new Measured(30.15, 0.02));
        Assert.Equal(Gantry.Y.BacklashMm + 0.15, play.After.Value, 1e-9);
        Assert.Equal(Math.Sqrt(2) * 0.02, play.After.Uncertainty, 1e-9);
        Assert.Null(play.Caution);
        var exchanged = Calibrations.Backlash(Gantry, AxisName.Y, new Measured(30.5, 0.02), new Measured(30.0, 0.02));
        Assert.Equal(0, exchanged.After.Value);
        Assert.Contains("exchanged", exchanged.Caution);
        Assert.Throws<RefusedException>(() => Calibrations.Backlash(Gantry, AxisName.Y, new Measured(3, 0.1), new Measured(30, 0.1)));
    }

    [Fact]
    public void The_offset_of_a_head_moves_with_its_mark()
    {
        var (x, y) = Calibrations.HeadOffset(Gantry, new Measured(0.4, 0.05), new Measured(-0.2, 0.05));
        Assert.Equal((Gantry.B!.OffsetXMm + 0.4, Gantry.B.OffsetYMm - 0.2), (x.After.Value, y.After.Value));
        Assert.Throws<RefusedException>(() => Calibrations.HeadOffset(Gantry with { B = null }, default, default));
    }

    [Theory]
    [InlineData(90)]
    [InlineData(89.5)]
    [InlineData(91.2)]
    public void The_angle_of_a_parallelogram_comes_out_of_its_diagonals(double degrees)
    {
        var angle = degrees * Math.PI / 180;
        var (cornerX, cornerY) = (60 * Math.Cos(angle), 60 * Math.Sin(angle)); // where 60 mm along Y lead
        var rising = Math.Sqrt((80 + cornerX) * (80 + cornerX) + cornerY * cornerY);
        var falling = Math.Sqrt((80 - cornerX) * (80 - cornerX) + cornerY * cornerY);
        var square = Squareness.Of(80, 60, new Measured(rising, 0.1), new Measured(falling, 0.1));
        Assert.Equal(90 - degrees, square.Degrees.Value, 1e-9);
        Assert.Equal(100 * Math.Tan((90 - degrees) * Math.PI / 180), square.MmIn100, 1e-9);

        // The law of propagation against differences (GUM 5.1.2).
        double At(double one, double other) => Squareness.Of(80, 60, new Measured(one, 0.1), new Measured(other, 0.1)).Degrees.Value;
        var (here, step) = (At(rising, falling), 1e-4);
        var slopes = Measured.Combined((At(rising + step, falling) - here) / step * 0.1, (At(rising, falling + step) - here) / step * 0.1);
        Assert.Equal(slopes, square.Degrees.Uncertainty, 1e-4);
    }

    [Theory]
    [InlineData(80, 60, 100, 60)]
    [InlineData(80, 60, 10, 10)]
    [InlineData(0, 60, 100, 100)]
    [InlineData(80, 60, double.NaN, 100)]
    public void Diagonals_of_no_rectangle_are_refused(double x, double y, double rising, double falling) =>
        Assert.Throws<RefusedException>(() => Squareness.Of(x, y, new Measured(rising, 0.1), new Measured(falling, 0.1)));
}
