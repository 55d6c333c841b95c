using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class ReferencingTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void From_anywhere_the_axes_find_their_zero(int seed)
    {
        var bench = new Bench(TestMachines.GantryOfDots, seed: seed);
        bench.GetReady();
        Assert.Equal(0, bench.Device.Gantry.X.PlaceMm, 6);
        Assert.Equal(0, bench.Device.Gantry.Y.PlaceMm, 6);
        Assert.Equal(0, bench.Device.Gantry.Z!.PlaceMm, 6);
        Assert.Equal(BoardInputs.ReferencedX | BoardInputs.ReferencedY | BoardInputs.ReferencedZ, bench.Last.Inputs);
    }

    [Fact]
    public void Z_is_found_first_where_its_endstop_is_away_from_the_work()
    {
        var bench = new Bench(TestMachines.GantryOfDots);
        bench.SetUp();
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        var order = bench.Said.Select(status => status.Inputs & (BoardInputs.ReferencedX | BoardInputs.ReferencedY | BoardInputs.ReferencedZ)).Distinct();
        Assert.Equal(
            [BoardInputs.None, BoardInputs.ReferencedZ, BoardInputs.ReferencedZ | BoardInputs.ReferencedX,
                BoardInputs.ReferencedX | BoardInputs.ReferencedY | BoardInputs.ReferencedZ],
            order);
    }

    [Theory]
    [InlineData("endstop-open=x")]
    [InlineData("endstop-closed=y")]
    [InlineData("endstop-open=z")]
    public void An_endstop_that_fails_ends_referencing(string faults)
    {
        var bench = new Bench(TestMachines.GantryOfDots, MockFaults.Parse(faults));
        bench.SetUp();
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Aborted);
        Assert.Equal(StateCause.ReferenceFailed, bench.Last.Cause);
        Assert.False(bench.Device.Gantry.DriversAreOn);
    }

    [Fact]
    public void An_axis_that_stands_on_its_endstop_leaves_it_and_finds_it_again()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Device.Gantry.Slip(AxisName.X, -1_000_000);
        Assert.True(bench.Device.Gantry.X.IsClosed);
        bench.GetReady();
        Assert.Equal(0, bench.Device.Gantry.X.PlaceMm, 6);
    }

    [Fact]
    public void Stopping_while_it_looks_for_an_endstop_leaves_the_axis_without_a_reference()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.SetUp();
        bench.Tell(MachineCommand.Reset);
        bench.Pass(0.3);
        bench.Tell(MachineCommand.Stop);
        bench.Reach(MachineState.Stopped);
        Assert.Equal(BoardInputs.None, bench.Last.Inputs);
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        Assert.Equal(0, bench.Device.Gantry.X.PlaceMm, 6);
    }

    [Fact]
    public void A_machine_that_kept_its_reference_only_goes_home()
    {
        var bench = new Bench(TestMachines.GantryOfDots);
        bench.GetReady();
        bench.Start(Record.Row(N, Head.A, new Cell(3, 3), 0, 2, rise: true), Record.End);
        bench.Reach(MachineState.Complete);
        bench.Said.Clear();
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        Assert.All(bench.Said, status => Assert.Equal(BoardInputs.ReferencedX | BoardInputs.ReferencedY | BoardInputs.ReferencedZ, status.Inputs));
        Assert.Equal((0, 0, 0), (bench.Last.X, bench.Last.Y, bench.Last.Layer));
        Assert.Equal(0, bench.Device.Gantry.X.PlaceMm, 6);
        Assert.Equal(0, bench.Device.Gantry.Z!.PlaceMm, 6);
    }

    [Fact]
    public void A_second_run_takes_as_long_as_the_first()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        var seconds = new List<double>();
        for (var run = 0; run < 2; run++)
        {
            var begun = bench.Now;
            bench.Start(Record.Patch(Head.A, new Cell(8, 8), 4, 4, PatchWay.XFalls), Record.End);
            bench.Reach(MachineState.Complete);
            seconds.Add((bench.Now - begun).TotalSeconds);
            bench.Tell(MachineCommand.Reset);
            bench.Reach(MachineState.Idle);
        }

        Assert.Equal(seconds[0], seconds[1], 6);
    }
}
