using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class LostStepsWordsTests
{
    [Fact]
    public void Each_axis_is_told_in_steps_and_mm_give_or_take_twice_its_uncertainty() => Assert.Equal(
        "X off by 1 step (0.013 mm, give or take 0.02 mm), Y off by -3 steps (-0.038 mm), Z off by 0 steps (0 mm)",
        LostStepsWords.Of([new(AxisName.X, 1, 0.0125) { UncertaintyMm = 0.01 }, new(AxisName.Y, -3, -0.0375), new(AxisName.Z, 0, 0)]));

    [Fact]
    public void A_machine_that_had_not_been_referenced_before_has_nothing_to_tell() =>
        Assert.Equal("where it stood before was not known", LostStepsWords.Of([]));
}
