using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>What a device tells of its references: steps that were lost come to light.</summary>
public abstract class ReferenceContract(DeviceMaker make)
{
    [ContractFact]
    public void A_first_reference_tells_nothing()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        Assert.Empty(Lost(host));
    }

    [ContractFact]
    public void A_machine_that_lost_no_steps_in_a_run_says_so_whichever_way_it_went_last()
    {
        using var device = make(ContractMachines.Dots, 2);
        var host = new Host(device, ContractMachines.Dots);
        host.GetReady();
        foreach (var heading in new[] { 0, 4, 2, 6 })
        {
            host.Run([Record.Row(Situation.N, Head.B, new Cell(8, 8), heading, 4), Record.End]);
            ReferenceAgain(host);
            var lost = Lost(host);
            Assert.Equal([AxisName.X, AxisName.Y, AxisName.Z], lost.Select(axis => axis.Axis));
            Assert.All(lost, axis => Assert.InRange(axis.Steps, -1, 1));
        }

        Assert.Equal(0, device.Wrongs);
    }

    [ContractTheory]
    [InlineData(-7, 0)]
    [InlineData(23, 5)]
    [InlineData(0, -90)]
    public void Steps_that_were_lost_are_found(int x, int y)
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Run([Record.Row(Situation.N, Head.A, new Cell(8, 8), 1, 4), Record.End]);
        device.Push(AxisName.X, x);
        device.Push(AxisName.Y, y);
        ReferenceAgain(host);
        var lost = Lost(host);
        Assert.InRange(lost[0].Steps, -x - 1, -x + 1);
        Assert.InRange(lost[1].Steps, -y - 1, -y + 1);
        Assert.Equal(lost[0].Steps / 40.0, lost[0].Mm, 1e-9);
        ReferenceAgain(host);
        lost = Lost(host);
        Assert.Equal([AxisName.X, AxisName.Y], lost.Select(axis => axis.Axis));
        Assert.All(lost, axis => Assert.InRange(axis.Steps, -1, 1));
    }

    [ContractFact]
    public void A_motor_without_power_holds_nothing_so_nothing_is_told()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Tell(MachineCommand.Abort);
        host.Reach(MachineState.Aborted);
        host.Tell(MachineCommand.Clear);
        ReferenceAgain(host);
        Assert.Empty(Lost(host));
    }

    /// <summary>The endstops close 3 mm before the first cell of X and behind the last one of Y.</summary>
    [ContractTheory]
    [InlineData(3, 0)]
    [InlineData(0, -3)]
    public void A_machine_whose_endstop_keeps_a_head_from_a_cell_is_not_reset(double x, double y)
    {
        var machine = ContractMachines.Of(ContractMachines.Pen(0, 0), ContractMachines.Pen(x, y));
        using var device = make(machine, 5);
        var host = new Host(device, machine);
        host.SetUp();
        var place = (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y));
        Assert.Equal(Answer.BadValue, host.Tell(MachineCommand.Reset));
        host.Pass(0.1);
        Assert.Equal((MachineState.Stopped, place), (host.Ask().State, (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y))));
    }

    /// <summary>The endstop of Y is at its far end; the gap of either is 3 mm, 120 steps. A carriage may lag by its play, 8 steps.</summary>
    [ContractTheory]
    [InlineData(AxisName.X, 100, 1)]
    [InlineData(AxisName.Y, 1100, -1)]
    public void A_cut_endstop_wire_at_the_beginning_of_a_search_moves_the_axis_four_gaps_at_most(AxisName axis, int from, int away)
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter);
        host.SetUp();
        device.Push(axis, from - (int)device.PlaceOf(axis));
        device.Break(axis, EndstopFault.StuckClosed);
        var (place, steps) = (device.PlaceOf(axis), device.StepsOf(axis));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Aborted);
        Assert.Equal(StateCause.ReferenceFailed, host.Ask().Cause);
        Assert.InRange(away * (device.PlaceOf(axis) - place), 4 * 120 - 9, 4 * 120 + 1);
        Assert.InRange((device.StepsOf(axis) - steps) ?? 0, 0, 4 * 120);
        Assert.Equal(0, device.Wrongs);
    }

    /// <summary>Two pens of 40 ms each: a controller that was reset does not know which of them is down.</summary>
    [ContractFact]
    public void A_fresh_device_takes_the_time_to_lift_every_pen_before_it_moves()
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = new Host(device, ContractMachines.Plotter);
        host.SetUp();
        var place = (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y));
        var began = device.Now;
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Pass(0.075 - (device.Now - began).TotalSeconds);
        Assert.Equal(place, (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y)));
        host.Pass(0.1);
        Assert.NotEqual(place, (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y)));
    }

    private static List<LostSteps> Lost(Host host)
    {
        Assert.Equal(Answer.Accepted, host.Tell(new ReferenceRead()));
        return [.. LostSteps.Of(host.Machine, host.References!.Value)];
    }

    private static void ReferenceAgain(Host host)
    {
        host.Said.Clear();
        host.Tell(MachineCommand.Stop); // refused where it has stopped already
        host.Reach(MachineState.Stopped, 1);
        host.TellMachine();
        host.Said.Clear();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Idle);
    }
}
