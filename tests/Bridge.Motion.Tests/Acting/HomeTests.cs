using Bridge.Jobs;
using CsCheck;

namespace Bridge.Motion.Tests;

public class HomeTests
{
    private static readonly Machine Gantry = TestMachines.Of(TestMachines.Dot(x: 1, y: 2),
        x: TestMachines.Axis(backlash: 0.5), y: TestMachines.Axis(backlash: 0.2, endstop: AxisEnd.Max), z: TestMachines.Axis(pitch: 5));

    [Fact]
    public void Home_is_reached_along_x_and_y_then_z_and_the_play_of_what_came_the_wrong_way_is_taken_up()
    {
        var acts = new Acts(Gantry).Home(new Place(40, 30, 20));
        Assert.Equal([ActKind.TakeUp, ActKind.IdleMove, ActKind.IdleMove, ActKind.TakeUp], acts.Select(act => act.Kind));
        Assert.Equal([0.5, 0.5], new[] { acts[0], acts[3] }.Select(act => act.Profile.DistanceMm)); // X turns, and turns back
        Assert.Equal((new Place(-1, -2, 20), new Place(-1, -2, 0)), (acts[1].To, acts[2].To));
    }

    [Fact]
    public void At_home_already_there_is_nothing_to_do() => Assert.Empty(new Acts(Gantry).Home(new Place(-1, -2, 0)));

    [Fact]
    public void The_time_of_a_part_of_the_way_leads_back_to_the_part()
    {
        var row = Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 9);
        foreach (var head in new[] { TestMachines.Dot(), TestMachines.Pen() })
        {
            var act = TestMachines.ActsOf(TestMachines.Of(head), row).Last(act => act.Works);
            Gen.Double[0, 1].Sample(part => Assert.Equal(80 * part, act.PlaceAt(act.SecondsAtPart(part)).XMm, 6), iter: 300);
        }
    }
}
