using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>
/// The example gantry: X at its near end, Y at its far end, Z below. 80, 80 and 400 steps a mm, gaps of 400 steps, play of 4 steps along X and Y;
/// 15 pitches of 320 steps along X and Y. So X and Z close at -400, and Y at 15 * 320 + 400 = 5200.
/// </summary>
public class LostStepsTests
{
    private const BoardAxes Down = BoardAxes.None;

    [Fact]
    public void A_machine_that_lost_nothing_counts_to_where_its_endstops_close() =>
        Assert.Equal([0, 0, 0], Found(Told(-400, 5200, -400, BoardAxes.Y)).Select(axis => axis.Steps));

    [Fact]
    public void An_axis_whose_last_move_went_the_other_way_counts_by_its_play_too_far() =>
        Assert.Equal([0, 0, 0], Found(Told(-404, 5204, -400, BoardAxes.X | BoardAxes.Z)).Select(axis => axis.Steps));

    [Theory]
    [InlineData(-397, 3)] // the carriage stood lower than was believed: its endstop closed early
    [InlineData(-403, -3)]
    public void Steps_that_were_lost_are_told_with_their_sign_and_in_mm(int counted, int steps)
    {
        var x = Found(Told(counted, 5200, -400, BoardAxes.Y))[0];
        Assert.Equal(new LostSteps(AxisName.X, steps, steps / 80.0), x);
    }

    [Fact]
    public void Each_axis_has_its_own_count_and_its_own_steps_for_a_mm() => Assert.Equal(
        [new LostSteps(AxisName.X, 1, 1 / 80.0), new LostSteps(AxisName.Y, -20, -0.25), new LostSteps(AxisName.Z, 100, 0.25)],
        Found(Told(-399, 5180, -300, BoardAxes.Y)));

    [Theory]
    [InlineData(BoardAxes.None, new AxisName[0])]
    [InlineData(BoardAxes.X, new[] { AxisName.X })]
    [InlineData(BoardAxes.Y | BoardAxes.Z, new[] { AxisName.Y, AxisName.Z })]
    public void Only_axes_whose_count_means_something_are_told(BoardAxes known, AxisName[] axes) =>
        Assert.Equal(axes, Found(Told(0, 0, 0, Down) with { Known = known }).Select(axis => axis.Axis));

    [Fact]
    public void A_machine_without_Z_tells_none() => Assert.Equal([AxisName.X, AxisName.Y],
        LostSteps.Of(Examples.Plotter, Told(0, 0, 0, Down)).Select(axis => axis.Axis));

    [Fact]
    public void A_far_endstop_closes_after_the_last_cell_rounded_to_a_whole_step()
    {
        var odd = Examples.Gantry.Y with { PitchMm = 1.03, Cells = 4 }; // 82.4 steps a cell: 3 * 82.4 = 247.2
        var machine = Examples.Gantry with { Y = odd };
        Assert.Equal(0, Found(Told(-400, 247 + 400, -400, BoardAxes.Y), machine)[1].Steps);
        machine = Examples.Gantry with { Y = odd with { Cells = 3 } }; // 164.8
        Assert.Equal(0, Found(Told(-400, 165 + 400, -400, BoardAxes.Y), machine)[1].Steps);
    }

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

    private static LostSteps[] Found(References told, Machine? machine = null) => [.. LostSteps.Of(machine ?? Examples.Gantry, told)];

    private static References Told(int x, int y, int z, BoardAxes wentUp) => new() { Known = BoardAxes.All, WentUp = wentUp, X = x, Y = y, Z = z };
}
