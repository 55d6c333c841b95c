using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class HoldTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    private static readonly Record[] Job =
    [
        Record.Row(N, Head.A, new Cell(1, 1), 0, 12),
        Record.Line(Head.A, new Cell(6, 4)),
        Record.Patch(Head.B, new Cell(3, 3), 3, 3, PatchWay.AlongY),
        Record.Wait(N, 4),
        Record.Go(Head.A, new Cell(15, 15)),
        Record.End,
    ];

    public static TheoryData<bool, int> Times()
    {
        var times = new TheoryData<bool, int>();
        for (var part = 1; part < 40; part++)
        {
            times.Add(false, part);
            times.Add(true, part);
        }

        return times;
    }

    [Theory]
    [MemberData(nameof(Times))]
    public void A_hold_at_any_time_loses_and_repeats_nothing(bool dots, int part)
    {
        var machine = dots ? TestMachines.GantryOfDots : TestMachines.Plotter;
        var bench = new Bench(machine);
        bench.GetReady();
        bench.Start(Job);
        bench.Pass(part * (dots ? 0.2 : 0.12));
        Assert.Equal(MachineState.Execute, bench.Device.State);
        Assert.Equal(Answer.Accepted, bench.Tell(MachineCommand.Hold));
        bench.Reach(MachineState.Held);
        var cells = bench.Device.Gantry.CellsWorked;
        Assert.False(bench.Last.Working);
        bench.Pass(10);
        Assert.Equal((MachineState.Held, cells), (bench.Device.State, bench.Device.Gantry.CellsWorked));
        Assert.Equal(Answer.Accepted, bench.Tell(MachineCommand.Unhold));
        bench.Reach(MachineState.Complete);
        Assert.Equal(RunTests.CellsOf(machine, Job), bench.Device.Gantry.Worked);
    }

    [Fact]
    public void Holding_again_and_again_loses_and_repeats_nothing()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Start(Job);
        while (bench.Device.State != MachineState.Complete)
        {
            bench.Pass(0.33);
            if (bench.Tell(MachineCommand.Hold) != Answer.Accepted)
                continue;
            bench.Reach(MachineState.Held);
            bench.Tell(MachineCommand.Unhold);
        }

        Assert.Equal(RunTests.CellsOf(bench.Machine, Job), bench.Device.Gantry.Worked);
    }

    [Fact]
    public void A_stop_ends_the_run_on_a_cell_and_keeps_the_reference()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Start(Job);
        bench.ReachCells(4);
        bench.Tell(MachineCommand.Stop);
        bench.Reach(MachineState.Stopped);
        Assert.Equal(RunTests.CellsOf(bench.Machine, Job).Take(bench.Device.Gantry.Worked.Count), bench.Device.Gantry.Worked);
        Assert.Equal((uint)bench.Device.Gantry.CellsWorked, bench.Last.CellsDone);
        Assert.Equal((bench.Device.Gantry.Worked[^1].Cell.X, 0u), (bench.Last.X, bench.Last.RecordsDone));
        Assert.Equal(BoardInputs.ReferencedX | BoardInputs.ReferencedY, bench.Last.Inputs);
        Assert.Equal(Answer.NoRun, bench.TellRecords(6, Record.End));
    }

    [Fact]
    public void A_record_can_hold_until_the_operator_goes_on()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Start(Record.Row(N, Head.A, new Cell(0, 0), 0, 3), Record.WaitForOperator(), Record.Row(N, Head.A, new Cell(0, 1), 0, 3), Record.End);
        bench.Reach(MachineState.Held);
        Assert.Equal((StateCause.OperatorWait, 1u, false), (bench.Last.Cause, bench.Last.RecordsDone, bench.Last.Working));
        bench.Pass(30);
        Assert.Equal(3, bench.Device.Gantry.CellsWorked);
        bench.Tell(MachineCommand.Unhold);
        bench.Reach(MachineState.Complete);
        Assert.Equal((6, 4u), (bench.Device.Gantry.CellsWorked, bench.Last.RecordsDone));
    }

    [Fact]
    public void A_silent_line_holds_the_run_and_its_return_does_not_go_on_with_it()
    {
        var bench = new Bench(TestMachines.GantryOfDots);
        bench.GetReady();
        bench.Start(Job);
        bench.ReachCells(3);
        bench.IsQuiet = true;
        var quietSince = bench.Now;
        bench.Reach(MachineState.Held);
        Assert.Equal(StateCause.LineSilent, bench.Last.Cause);
        Assert.InRange((bench.Now - quietSince).TotalSeconds, 0.3, 0.5 + 0.1 + 0.3);
        bench.IsQuiet = false;
        bench.Pass(5);
        Assert.Equal(MachineState.Held, bench.Device.State);
        bench.Tell(MachineCommand.Unhold);
        bench.Reach(MachineState.Complete);
        Assert.Equal(RunTests.CellsOf(bench.Machine, Job), bench.Device.Gantry.Worked);
    }

    [Fact]
    public void A_silent_line_ends_referencing()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.SetUp();
        bench.Tell(MachineCommand.Reset);
        bench.IsQuiet = true;
        bench.Reach(MachineState.Stopped);
        Assert.Equal(StateCause.LineSilent, bench.Last.Cause);
    }

    [Fact]
    public void A_host_that_starts_anew_finds_the_run_held_and_can_go_on_with_it()
    {
        var bench = new Bench(TestMachines.GantryOfDots);
        bench.GetReady();
        bench.Start(Job);
        bench.ReachCells(3);
        bench.Hello(0x5678);
        bench.Reach(MachineState.Held);
        Assert.Equal((StateCause.HostRestarted, (ushort)7, 6u), (bench.Last.Cause, bench.Last.RunId, bench.Last.RecordsTaken));
        bench.Tell(MachineCommand.Unhold);
        bench.Reach(MachineState.Complete);
        Assert.Equal(RunTests.CellsOf(bench.Machine, Job), bench.Device.Gantry.Worked);
    }

    [Fact]
    public void A_run_out_of_records_suspends_and_goes_on_with_more()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Tell(new Begin(1, 3));
        bench.TellRecords(0, Record.Row(N, Head.A, new Cell(0, 0), 0, 4));
        bench.Tell(MachineCommand.Start);
        bench.Reach(MachineState.Suspended);
        Assert.Equal((StateCause.Starved, false), (bench.Last.Cause, bench.Last.Working));
        bench.TellRecords(1, Record.Line(Head.A, new Cell(3, 3)), Record.End);
        bench.Reach(MachineState.Complete);
        Assert.Equal(
            RunTests.CellsOf(bench.Machine, Record.Row(N, Head.A, new Cell(0, 0), 0, 4), Record.Line(Head.A, new Cell(3, 3)), Record.End),
            bench.Device.Gantry.Worked);
        Assert.Equal(
            [MachineState.Execute, MachineState.Suspending, MachineState.Suspended, MachineState.Unsuspending, MachineState.Execute],
            bench.StatesSaid.SkipWhile(state => state != MachineState.Execute).Take(5));
    }

    [Fact]
    public void A_run_that_stays_out_of_records_holds()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Tell(new Begin(1, 2));
        bench.TellRecords(0, Record.Row(N, Head.A, new Cell(0, 0), 0, 4));
        bench.Tell(MachineCommand.Start);
        bench.Reach(MachineState.Held);
        Assert.Equal(StateCause.Starved, bench.Last.Cause);
        Assert.Equal(Answer.Accepted, bench.TellRecords(1, Record.End));
        bench.Pass(2);
        Assert.Equal(MachineState.Held, bench.Device.State);
        bench.Tell(MachineCommand.Unhold);
        bench.Reach(MachineState.Complete);
    }

    [Fact]
    public void A_run_that_the_operator_suspended_waits_for_unsuspend()
    {
        var bench = StateTests.In(MachineState.Execute);
        bench.Tell(MachineCommand.Suspend);
        bench.Reach(MachineState.Suspended);
        bench.Pass(20);
        Assert.Equal((MachineState.Suspended, StateCause.Operator), (bench.Device.State, bench.Device.Cause));
        bench.Tell(MachineCommand.Unsuspend);
        bench.Reach(MachineState.Complete);
    }
}
