using Bridge.Jobs;

namespace Bridge.Motion.Tests;

public class CarriageTests
{
    [Fact]
    public void The_carriage_stands_a_heads_offset_before_the_cell()
    {
        var carriage = new Carriage(TestMachines.Of(TestMachines.Pen(), TestMachines.Pen(3, -2), z: TestMachines.Axis(pitch: 4)));
        Assert.Equal(new Place(20, 50, 0), carriage.PlaceOf(new Position(new Cell(2, 5), 0, Head.A)));
        Assert.Equal(new Place(17, 52, 12), carriage.PlaceOf(new Position(new Cell(2, 5), 3, Head.B)));
    }

    [Fact] // L = 50, speed = min(50·50/30, 20·50/40) = 25, acceleration = min(200·50/30, 400·50/40) = 333.33.
    public void A_slanting_move_keeps_every_axis_within_its_limits()
    {
        var machine = TestMachines.Of(TestMachines.Pen(), x: TestMachines.Axis(), y: TestMachines.Axis(speed: 20, accel: 400));
        var profile = new Carriage(machine).ProfileAlong(new Place(30, -40, 0));
        Assert.Equal(50, profile.DistanceMm, 12);
        Assert.Equal(25, profile.LimitMmS, 12);
        Assert.Equal(200.0 * 50 / 30, profile.AccelMmS2, 9);
    }

    [Fact]
    public void No_way_has_no_profile() => Assert.Equal(default, new Carriage(TestMachines.Of(TestMachines.Pen())).ProfileAlong(default));
}
