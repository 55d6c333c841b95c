using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Mock.Tests;

public class GantryTests
{
    private static Gantry Powered(out Position home)
    {
        var gantry = new Gantry(TestMachines.GantryOfDots, 1) { DriversAreOn = true };
        gantry.Move(new Place(-gantry.X.PlaceMm * 80, -gantry.Y.PlaceMm * 80, -gantry.Z!.PlaceMm * 400));
        home = new Position(default, 0, Head.A);
        return gantry;
    }

    [Fact]
    public void The_carriage_starts_over_the_grid_at_a_place_of_the_seeds_choice()
    {
        var places = Enumerable.Range(0, 20).Select(seed => new Gantry(TestMachines.GantryOfDots, seed).X.PlaceMm).ToList();
        Assert.All(places, place => Assert.InRange(place, 0, 75));
        Assert.Equal(20, places.Distinct().Count());
        Assert.Equal(places[3], new Gantry(TestMachines.GantryOfDots, 3).X.PlaceMm);
    }

    [Fact]
    public void A_worked_cell_is_where_the_tool_really_is()
    {
        var gantry = Powered(out var home);
        gantry.Work(home);
        gantry.Slip(AxisName.X, 2.4 * 5 * 80);
        gantry.Work(home);
        gantry.Work(home with { Head = Head.B }); // 1 mm further on either axis
        gantry.Move(new Place(0, 0, 8 * 400));
        gantry.Work(home);
        Assert.Equal(
            [home, home with { Cell = new(2, 0) }, new Position(new(3, 0), 0, Head.B), new Position(new(2, 0), 1, Head.A)], gantry.Worked);
    }

    [Fact]
    public void Half_a_cell_beside_is_still_the_cell_that_is_meant()
    {
        var gantry = Powered(out var home);
        gantry.Move(new Place(0.5 * 5 * 80, 0, 0));
        gantry.Work(home);
        gantry.Work(home with { Cell = new(1, 0) });
        Assert.Equal([home, home with { Cell = new(1, 0) }], gantry.Worked);
    }

    [Fact]
    public void Without_power_nothing_moves_and_the_attempt_is_noted()
    {
        var gantry = Powered(out _);
        gantry.PressEStop();
        gantry.Move(new Place(80, 0, 0));
        gantry.ReleaseEStop();
        gantry.DriversAreOn = false;
        gantry.Move(new Place(80, 0, 0));
        Assert.Equal((0.0, 2L), (Math.Round(gantry.X.PlaceMm, 9), gantry.MovesWithoutPower));
    }

    [Fact]
    public void Endstops_close_at_their_gap_and_the_frame_stalls_the_motor_behind_them()
    {
        var gantry = Powered(out _);
        Assert.Equal((1.0, AxisName.X), gantry.PartToClose(new Place(-4 * 80, 0, 0))!.Value);
        Assert.Equal((0.5, AxisName.X), gantry.PartToClose(new Place(-8 * 80, 0, 0))!.Value);
        Assert.Null(gantry.PartToClose(new Place(8 * 80, -8 * 80, 0)));
        Assert.Equal(79 / 100.0, gantry.PartToClose(new Place(0, 100 * 80, 0))!.Value.Part, 9);
        gantry.Move(new Place(-4 * 80, 0, 0));
        Assert.Equal((true, false), (gantry.X.IsClosed, gantry.X.HasStalled));
        gantry.Move(new Place(-4 * 80, 0, 0));
        Assert.Equal((-6.0, true), (Math.Round(gantry.X.PlaceMm, 9), gantry.X.HasStalled));
    }
}
