using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History.Tests;

public sealed class HealthTests : IDisposable
{
    private readonly PastRuns _runs = new();

    public void Dispose() => _runs.Dispose();

    [Fact]
    public void The_limits_of_the_handbooks_flow_rates_are_the_handbooks()
    {
        // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: ten batches, mean 50.81,
        // mean moving range 1.8778, limits 45.8159 and 55.8041 (from memory).
        var limits = ControlLimits.Of([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])!.Value;
        Assert.Equal(50.81, limits.Center, 1e-9);
        Assert.Equal(45.8159, limits.Lower, 5e-5);
        Assert.Equal(55.8041, limits.Upper, 5e-5);
    }

    [Fact]
    public void The_constant_is_the_mean_range_of_two_normal_values() => // 2 / sqrt(pi), by integration; the tables have 1.128
        Assert.Equal(ControlLimits.D2, 2 / Math.Sqrt(Math.PI), 5e-4);

    [Fact]
    public void Too_few_runs_have_no_limits() => Assert.Null(ControlLimits.Of([1, 2, 3, 4]));

    [Fact]
    public void A_machine_that_loses_steps_is_told_to_be_looked_at_and_one_that_loses_none_is_not()
    {
        var points = Enumerable.Range(0, 5).Select(_ => HealthPoint.Of(PastRun.Read(_runs.Run().Path))).ToList();
        var well = new MachineHealth("Plotter", points);
        Assert.Empty(well.Warnings);
        Assert.Equal("Nothing stands out.", well.Finding);
        Assert.All(points, point => Assert.InRange(point.TravelMm!.Value, 100, 10_000));
        Assert.All(points, point => Assert.InRange(point.WorkSeconds, 10, 30));
        var ill = well with { Points = [.. points, HealthPoint.Of(PastRun.Read(_runs.Run("skip=y:5:-9").Path))] };
        Assert.Contains("Axis Y lost 9 steps", Assert.Single(ill.Warnings));
        Assert.Equal([0, 0, 0, 0, 0, 9], ill.Lost(AxisName.Y));
        Assert.Contains("look at the belt", HtmlPage.Of(ill.ToPage()));
    }

    [Fact]
    public void Where_nothing_was_measured_nothing_is_said_to_be_well()
    {
        Assert.Equal("It has no run yet.", new MachineHealth("Plotter", []).Finding);
        var unmeasured = new MachineHealth("Plotter", [new HealthPoint("one", [], 3, 10, null)]);
        Assert.Contains("no run measured it", unmeasured.Finding);
        Assert.Contains("no run measured it", HtmlPage.Of(unmeasured.ToPage()));
    }

    [Fact]
    public void Lost_steps_are_told_with_their_uncertainty_where_it_was_measured()
    {
        var point = new HealthPoint("one", [new LostSteps(AxisName.X, 2, 0.025) { UncertaintyMm = 0.006 }, new LostSteps(AxisName.Y, 0, 0)], 3, 10, null);
        var page = HtmlPage.Of(new MachineHealth("Plotter", [point]).ToPage());
        Assert.Contains("Last 0.025 mm, give or take 0.012 mm", page);
        Assert.Equal(2, page.Split("give or take").Length);
    }
}
