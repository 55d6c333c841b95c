using Bridge.Jobs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>The start button where no host has spoken since the reset.</summary>
public abstract class ButtonContract(DeviceMaker make)
{
    private static readonly RecordWidth N = Situation.N;

    /// <summary>Both heads, a wait for the operator, and a part of it twice.</summary>
    private static readonly Record[] Job =
    [
        Record.Row(N, Head.A, new Cell(3, 3), 2, 2), Record.Row(N, Head.B, new Cell(5, 3), 0, 3), Record.Again(N, 2, 1), Record.WaitForOperator(),
        Record.Line(Head.B, new Cell(9, 6)), Record.End,
    ];

    [ContractFact]
    public void Each_press_is_one_command_and_the_stored_job_runs_whole()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = Stored(device, Job);
        Press(host);
        AwaitRest(host);
        Assert.True(device.DriversAreOn); // cleared
        Press(host);
        AwaitRest(host);
        Assert.InRange(device.PlaceOf(AxisName.X), -9, 9); // referenced
        Press(host);
        AwaitRest(host);
        Assert.Equal(10, host.Worked.Count); // it waits for the operator
        Press(host);
        AwaitRest(host);
        Assert.Equal(Jobs.CellsOf(host.Machine, Job), host.Worked);
        Assert.Equal(0, device.Wrongs);
        host.Hello(0x7777);
        Assert.Equal((MachineState.Complete, StateCause.JobComplete, (ushort)0xFFFF), (host.Ask().State, host.Last.Cause, host.Last.RunId));
        Assert.Equal(7u, host.Last.RecordsDone);
    }

    [ContractFact]
    public void A_complete_job_is_run_again_from_the_button()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = Stored(device, Record.Row(N, Head.A, new Cell(3, 3), 2, 2), Record.End);
        for (var press = 0; press < 5; press++) // clear, reset, start, reset, start
        {
            Press(host);
            AwaitRest(host);
        }

        Assert.Equal(4, host.Worked.Count);
    }

    [ContractFact]
    public void The_only_pen_of_a_machine_is_lowered_for_a_stored_job()
    {
        using var device = make(ContractMachines.OnePen, 8);
        var host = Stored(device, ContractMachines.OnePen, Record.Row(N, Head.A, new Cell(0, 0), 0, 3), Record.End);
        for (var press = 0; press < 2; press++) // clear, reset
        {
            Press(host);
            AwaitRest(host);
        }

        Press(host);
        Assert.Empty(host.Worked); // it stands over the first cell and its pen goes down
        host.ReachCells(3);
        Assert.Equal([new Cell(0, 0), new Cell(1, 0), new Cell(2, 0)], host.Worked.Select(worked => worked.Cell));
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void A_press_shorter_than_a_bounce_is_none()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = Stored(device, Job);
        for (var bounce = 0; bounce < 20; bounce++)
        {
            device.StartIsPressed = bounce % 2 == 0;
            host.Pass(0.02);
        }

        Assert.False(device.DriversAreOn);
        Press(host);
        AwaitRest(host);
        Assert.True(device.DriversAreOn);
    }

    [ContractFact]
    public void A_button_that_is_held_from_the_reset_on_is_not_pressed()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = Stored(device, Job);
        device.StartIsPressed = true;
        Reset(host);
        host.Pass(0.3);
        Assert.False(device.DriversAreOn);
        device.StartIsPressed = false;
        host.Pass(0.1);
        Press(host);
        host.Pass(0.1);
        Assert.True(device.DriversAreOn);
    }

    [ContractFact]
    public void Without_a_stored_job_nothing_moves_and_the_cause_says_so()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = new Host(device, ContractMachines.Plotter);
        host.Pass(0.1);
        Press(host);
        host.Pass(0.1);
        var place = device.PlaceOf(AxisName.X);
        Press(host);
        host.Pass(0.3);
        Assert.Equal(place, device.PlaceOf(AxisName.X));
        host.Hello();
        Assert.Equal((MachineState.Stopped, StateCause.StoreBlank), (host.Ask().State, host.Last.Cause));
    }

    [ContractFact]
    public void With_a_host_on_the_line_it_is_only_told()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = Stored(device, Job);
        host.Hello(0x4444);
        Press(host);
        host.Pass(0.1);
        Assert.Equal(MachineState.Aborted, host.Ask().State);
    }

    [ContractFact]
    public void The_e_stop_ends_what_the_button_began()
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = Stored(device, Job);
        for (var press = 0; press < 2; press++)
        {
            Press(host);
            AwaitRest(host);
        }

        Press(host);
        host.ReachCells(2);
        device.EStopIsOpen = true;
        host.Pass(0.02);
        var cells = host.Worked.Count;
        device.EStopIsOpen = false;
        host.Pass(0.5);
        Assert.Equal((cells, false, 0L), (host.Worked.Count, device.DriversAreOn, device.Wrongs));
    }

    /// <summary>A device with a job in its store, just reset, the host gone.</summary>
    private static Host Stored(IDeviceUnderTest device, params Record[] job) => Stored(device, ContractMachines.Plotter, job);

    private static Host Stored(IDeviceUnderTest device, Machine machine, params Record[] job)
    {
        var host = new Host(device, machine);
        host.Hello();
        host.TellMachine();
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(job)));
        Assert.True(host.Until(() => host.ReadStored(0, 1, out _) == Answer.Accepted, 1));
        Reset(host);
        host.Pass(0.1);
        return host;
    }

    private static void Reset(Host host)
    {
        host.Device.Reset(ResetReason.PowerOn);
        host.Session = 0; // it says no more
    }

    private static void Press(Host host)
    {
        host.Device.StartIsPressed = true;
        host.Pass(0.05);
        host.Device.StartIsPressed = false;
        host.Pass(0.05);
    }

    /// <summary>Lets time pass until nothing has moved for longer than a pen takes.</summary>
    private static void AwaitRest(Host host)
    {
        var device = host.Device;
        for (var (still, x, y) = (0, 0.0, 0.0); still < 12;)
        {
            host.Pass(0.02);
            still = (x, y) == (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y)) ? still + 1 : 0;
            (x, y) = (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y));
        }
    }
}
