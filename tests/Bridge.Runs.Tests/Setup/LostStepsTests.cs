using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class LostStepsTests
{
    [Fact]
    public void How_sure_they_are_follows_from_two_references_and_from_whole_steps()
    {
        var axis = Examples.Gantry.X with { Repeat = new Repeatability(6, 0, 0.02) };
        var lost = LostSteps.Of(Examples.Gantry with { X = axis }, new References { Known = (BoardAxes)3, WentUp = 0, X = 0, Y = 0, Z = 0 }).ToList();
        Assert.Equal(Math.Sqrt(2 * (0.02 * 0.02 + 1 / axis.StepsPerMm / axis.StepsPerMm / 12)), lost[0].UncertaintyMm!.Value, 1e-6);
        Assert.Null(lost[1].UncertaintyMm); // Y was never measured
    }

    [Fact]
    public void The_places_of_references_are_the_sums_of_what_each_told_of_the_one_before()
    {
        var places = new ReferencePlaces();
        foreach (var mm in new[] { 0.1, -0.2, 0.1 })
            places.Add([new LostSteps(AxisName.Y, 0, mm), new LostSteps(AxisName.X, 0, 0)]);
        Assert.Equal([AxisName.X, AxisName.Y], places.Axes.Select(axis => axis.Axis));
        Assert.Equal([0, 0.1, -0.1, 0], places.Axes.Last().Mm.Select(mm => Math.Round(mm, 9)));
        Assert.Empty(new ReferencePlaces().Axes);
    }
}
