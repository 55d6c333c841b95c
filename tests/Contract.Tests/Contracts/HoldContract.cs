using Bridge.Jobs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Holds and other controlled stops, at many moments: nothing is lost, nothing is done twice.</summary>
public abstract class HoldContract(DeviceMaker make)
{
    private const int Moments = 30;

    private static readonly RecordWidth N = Situation.N;

    private static readonly Record[] Job =
    [
        Record.Row(N, Head.A, new Cell(1, 1), 0, 4),
        Record.Line(Head.A, new Cell(3, 4)),
        Record.Patch(Head.B, new Cell(3, 3), 2, 2, PatchWay.AlongY),
        Record.Wait(N, 1),
        Record.Go(Head.A, new Cell(9, 9)),
        Record.End,
    ];

    public static TheoryData<bool, int> Times()
    {
        var times = new TheoryData<bool, int>();
        for (var part = 0; part < Moments; part++)
        {
            times.Add(false, part);
            times.Add(true, part);
        }

        return times;
    }

    [ContractTheory]
    [ManyRows(nameof(Times))]
    public void A_hold_at_any_moment_loses_and_repeats_nothing(bool dots, int part)
    {
        var machine = dots ? ContractMachines.Dots : ContractMachines.Plotter;
        using var device = make(machine, part);
        var host = TellsIn(part, device, machine, MachineCommand.Hold);
        host.Reach(MachineState.Held, 2);
        Assert.False(host.Last.Working);
        var (cells, x) = (host.Worked.Count, device.PlaceOf(Bridge.Jobs.AxisName.X));
        host.Pass(0.15);
        Assert.Equal((MachineState.Held, cells, x), (host.State, host.Worked.Count, device.PlaceOf(Bridge.Jobs.AxisName.X)));
        host.Said.Clear();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(machine, Job), host.Worked);
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void Holding_again_and_again_loses_and_repeats_nothing()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Start(Job);
        for (var time = 0; time < 100 && host.State != MachineState.Complete; time++)
        {
            host.Pass(0.11);
            if (host.Tell(MachineCommand.Hold) != Answer.Accepted)
                continue;
            host.Said.Clear();
            host.Reach(MachineState.Held, 2);
            Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        }

        Assert.Equal(MachineState.Complete, host.Ask().State);
        Assert.Equal(Jobs.CellsOf(host.Machine, Job), host.Worked);
    }

    [ContractTheory]
    [ManyRows(nameof(Times))]
    public void A_stop_at_any_moment_ends_the_run_on_a_cell_and_keeps_the_reference(bool dots, int part)
    {
        var machine = dots ? ContractMachines.Dots : ContractMachines.Plotter;
        using var device = make(machine, part);
        var host = TellsIn(part, device, machine, MachineCommand.Stop);
        host.Reach(MachineState.Stopped, 2);
        Assert.Equal(Jobs.CellsOf(machine, Job).Take(host.Worked.Count), host.Worked);
        Assert.Equal(dots ? 0xE0 : 0x60, (int)host.Last.Inputs & 0xE0);
        Assert.Equal((uint)host.Worked.Count, Jobs.CellsBefore(machine, Job, host.Last.RecordsDone) + host.Last.CellsDone);
        Assert.Equal(Answer.NoRun, host.TellRecords(6, Record.End));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset)); // and it goes home from there
        host.Reach(MachineState.Idle);
        Assert.InRange(device.PlaceOf(Bridge.Jobs.AxisName.X), -9, 9); // the play is 8 steps
    }

    [ContractFact]
    public void A_record_can_hold_until_the_operator_goes_on()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Start(Record.Row(N, Head.A, new Cell(0, 0), 0, 3), Record.WaitForOperator(), Record.Row(N, Head.A, new Cell(0, 1), 0, 3), Record.End);
        host.Reach(MachineState.Held);
        Assert.Equal((StateCause.OperatorWait, 1u, false), (host.Last.Cause, host.Last.RecordsDone, host.Last.Working));
        host.Pass(2);
        Assert.Equal(3, host.Worked.Count);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal((6, 4u), (host.Worked.Count, host.Last.RecordsDone));
    }

    [ContractTheory]
    [InlineData(0)]
    [InlineData(25)]
    public void A_wait_takes_its_tenths_of_a_second_with_the_pen_up(int tenths)
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        var row = Record.Row(N, Head.A, new Cell(0, 0), 0, 1);
        host.Start(row, Record.Wait(N, tenths), Record.End);
        var since = device.Now;
        host.Reach(MachineState.Complete);
        var seconds = 0.06 + 0.04 + tenths / 10.0; // lowering, lifting, waiting
        Assert.InRange((device.Now - since).TotalSeconds, seconds - 0.005, seconds + 0.01);
    }

    [ContractFact]
    public void A_wait_that_is_held_waits_only_for_what_was_left()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Start(Record.Wait(N, 20), Record.End);
        host.Pass(1.5);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Hold));
        host.Reach(MachineState.Held);
        host.Pass(5);
        var since = device.Now;
        host.Tell(MachineCommand.Unhold);
        host.Reach(MachineState.Complete);
        Assert.InRange((device.Now - since).TotalSeconds, 0.45, 0.52); // a part of it, up to 33 ms, may be stood out first
    }

    // A host that has started the job, and tells the device a command when a part of its time is over.
    private static Host TellsIn(int part, IDeviceUnderTest device, Machine machine, MachineCommand command)
    {
        var host = new Host(device, machine);
        host.GetReady();
        host.Start(Job);
        host.Pass(part * Jobs.SecondsOf(machine, Job) / Moments);
        Assert.Equal(Answer.Accepted, host.Tell(command));
        return host;
    }
}
