using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class JogTests
{
    private const double LeaveSeconds = 0.04;        // SPEC.md, section 10
    private const double SlowingSeconds = 1 / 64.0;

    /// <summary>Speed rises and falls evenly, so the way is what the top speed makes in the time of the leave.</summary>
    [Fact]
    public void One_jog_moves_for_its_leave_no_faster_than_it_can_slow_down_in_time()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        var from = bench.Device.Gantry.X.PlaceMm;
        bench.Jog(new Jog(0, IsUp: true));
        bench.Pass(LeaveSeconds + SlowingSeconds);
        var way = bench.Device.Gantry.X.PlaceMm - from;
        var speed = bench.Machine.X.AccelMmS2 * SlowingSeconds;
        Assert.True(speed < bench.Machine.X.ReferenceSpeedMmS);
        Assert.Equal(speed * LeaveSeconds, way, 0.001);
        bench.Pass(0.5);
        Assert.Equal(way, bench.Device.Gantry.X.PlaceMm - from, 1e-6);
    }
}
