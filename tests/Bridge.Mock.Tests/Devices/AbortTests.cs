using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class AbortTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    private static Bench Running(string faults, Machine? machine = null)
    {
        var bench = new Bench(machine ?? TestMachines.Plotter, MockFaults.Parse(faults));
        bench.GetReady();
        bench.Start(Record.Row(N, Head.A, new Cell(0, 0), 0, 16), Record.Row(N, Head.A, new Cell(15, 1), 4, 16), Record.End);
        return bench;
    }

    private static void AssertAborted(Bench bench, StateCause cause)
    {
        Assert.Equal((MachineState.Aborted, cause), (bench.Last.State, bench.Last.Cause));
        Assert.Equal(BoardInputs.None, bench.Last.Inputs & (BoardInputs.ReferencedX | BoardInputs.ReferencedY));
        Assert.False(bench.Device.Gantry.DriversAreOn);
        Assert.Equal(0, bench.Device.Gantry.MovesWithoutPower);
        var (place, cells) = (bench.Device.Gantry.X.PlaceMm, bench.Device.Gantry.CellsWorked);
        bench.Pass(3);
        Assert.Equal((place, cells), (bench.Device.Gantry.X.PlaceMm, bench.Device.Gantry.CellsWorked));
    }

    [Fact]
    public void The_e_stop_aborts_at_the_cell_at_hand()
    {
        var bench = Running("estop-at=5");
        bench.Reach(MachineState.Aborted);
        AssertAborted(bench, StateCause.EStop);
        Assert.Equal((5, 5u), (bench.Device.Gantry.CellsWorked, bench.Last.CellsDone));
        Assert.Equal(BoardInputs.EStopOpen, bench.Last.Inputs);
    }

    [Fact]
    public void Clear_is_refused_while_the_e_stop_is_pressed_and_releasing_it_starts_nothing()
    {
        var bench = Running("estop-at=5, estop-released-after=2.5");
        bench.Reach(MachineState.Aborted);
        bench.Pass(2);
        Assert.Equal(Answer.CausePresent, bench.Tell(MachineCommand.Clear));
        bench.Pass(1);
        Assert.False(bench.Device.Gantry.EStopIsOpen);
        Assert.Equal(MachineState.Aborted, bench.Device.State);
        Assert.Equal(Answer.Accepted, bench.Tell(MachineCommand.Clear));
        Assert.Equal(MachineState.Stopped, bench.Device.State);
        bench.Pass(5);
        Assert.Equal(MachineState.Stopped, bench.Device.State);
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        Assert.Equal(0, bench.Device.Gantry.X.PlaceMm, 6);
        Assert.Equal(Answer.NoRun, bench.Tell(MachineCommand.Start));
    }

    [Theory]
    [InlineData(MachineState.Stopped)]
    [InlineData(MachineState.Resetting)]
    [InlineData(MachineState.Idle)]
    [InlineData(MachineState.Holding)]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Suspended)]
    [InlineData(MachineState.Completing)]
    [InlineData(MachineState.Complete)]
    public void The_e_stop_aborts_in_every_state(MachineState state)
    {
        var bench = StateTests.In(state);
        bench.Device.Gantry.PressEStop();
        bench.Pass(0.001);
        AssertAborted(bench, StateCause.EStop);
    }

    [Fact]
    public void An_e_stop_that_is_released_at_once_aborts_all_the_same()
    {
        var bench = Running("");
        bench.ReachCells(3);
        bench.Device.Gantry.PressEStop();
        bench.Device.Gantry.ReleaseEStop();
        bench.Pass(0.001);
        AssertAborted(bench, StateCause.EStop);
        Assert.Equal(Answer.Accepted, bench.Tell(MachineCommand.Clear));
    }

    [Theory]
    [InlineData("7F 7F")]
    [InlineData("7E 08 34 7F 7F 7F")]
    [InlineData("7D 7F 7F 7F 7F 7F 7F 7F 7F")]
    public void Stop_octets_abort_wherever_they_stand(string hex)
    {
        var bench = Running("");
        bench.ReachCells(7);
        bench.Receive(Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal)));
        AssertAborted(bench, StateCause.StopOctets);
        bench.Receive([0x7E]);
        Assert.Equal(Answer.Accepted, bench.Tell(MachineCommand.Clear));
    }

    [Fact]
    public void One_7f_stops_nothing()
    {
        var bench = Running("");
        bench.ReachCells(7);
        bench.Receive([0x7F, 0x7E, 0x7F, 0x7E]);
        bench.Reach(MachineState.Complete);
    }

    [Fact]
    public void An_endstop_that_closes_in_a_run_aborts_it()
    {
        var bench = Running("endstop-closed=y:3");
        bench.Reach(MachineState.Aborted);
        AssertAborted(bench, StateCause.EndstopHit);
        Assert.Equal(3, bench.Device.Gantry.CellsWorked);
    }

    [Fact] // 5 mm a cell, 80 steps/mm, 4 mm from cell 0 to the endstop: 800 steps are two cells, and the way back to x = 0 runs into it.
    public void Skipped_steps_work_the_wrong_cells_until_the_endstop_tells()
    {
        var bench = Running("skip=x:20:-800");
        bench.Reach(MachineState.Aborted);
        AssertAborted(bench, StateCause.EndstopHit);
        var worked = bench.Device.Gantry.Worked;
        Assert.Equal(new Position(new Cell(12, 1), 0, Head.A), worked[19]);
        Assert.Equal(new Position(new Cell(9, 1), 0, Head.A), worked[20]);
        Assert.Equal(-4, bench.Device.Gantry.X.PlaceMm, 6);
        Assert.True(bench.Device.Gantry.X.IsClosed);
        Assert.False(bench.Device.Gantry.X.HasStalled);
    }

    [Fact]
    public void A_dot_that_was_not_done_is_not_counted()
    {
        var bench = Running("", TestMachines.GantryOfDots);
        bench.ReachCells(4);
        bench.Pass(0.12);
        bench.Tell(MachineCommand.Abort);
        AssertAborted(bench, StateCause.Operator);
        Assert.Equal((uint)bench.Device.Gantry.CellsWorked, bench.Last.CellsDone);
    }
}
