using Bridge.Jobs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Jogging: hold to run.</summary>
public abstract class JogContract(DeviceMaker make)
{
    [ContractTheory]
    [InlineData(AxisName.X)]
    [InlineData(AxisName.Y)]
    public void It_moves_for_as_long_as_it_is_told_to_and_is_at_rest_a_tenth_of_a_second_later(AxisName axis)
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        var from = device.PlaceOf(axis);
        Jog(host, axis, up: true, seconds: 0.25);
        var there = device.PlaceOf(axis);
        Assert.True(there > from + 100, $"{from} to {there}"); // 60 mm/s by 40 steps/mm by a quarter of a second, at most
        Assert.True(there < from + 660, $"{from} to {there}");
        host.Pass(0.1);
        var rest = device.PlaceOf(axis);
        host.Pass(0.5);
        Assert.Equal((rest, MachineState.Idle), (device.PlaceOf(axis), host.Ask().State));
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void It_goes_to_the_last_cell_and_no_further()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        Jog(host, AxisName.X, up: true, seconds: 2);
        host.Pass(0.2);
        Assert.InRange(device.PlaceOf(AxisName.X), 15 * 80 - 9, 15 * 80 + 9);
        Jog(host, AxisName.X, up: false, seconds: 2);
        host.Pass(0.2);
        Assert.InRange(device.PlaceOf(AxisName.X), -9, 9);
        Assert.Equal((MachineState.Idle, 0L), (host.Ask().State, device.Wrongs));
    }

    [ContractFact]
    public void A_run_that_is_held_may_be_jogged_and_goes_on_where_it_was()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Held);
        Jog(host, AxisName.Y, up: true, seconds: 0.4);
        Jog(host, AxisName.X, up: true, seconds: 0.3);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold)); // while it still moves
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Situation.Job), host.Worked);
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void A_run_that_is_started_after_jogging_starts_from_home()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        Jog(host, AxisName.X, up: true, seconds: 0.3);
        host.Start(Record.Line(Head.A, new Cell(3, 2)), Record.End);
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Record.Line(Head.A, new Cell(3, 2)), Record.End), host.Worked);
    }

    [ContractFact]
    public void A_reset_after_jogging_brings_it_home()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        Jog(host, AxisName.X, up: true, seconds: 0.3);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Stop));
        host.Reach(MachineState.Stopped);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Said.Clear();
        host.Reach(MachineState.Idle);
        Assert.InRange(device.PlaceOf(AxisName.X), -9, 9);
    }

    [ContractTheory]
    [InlineData(MachineState.Aborted)]
    [InlineData(MachineState.Stopped)]
    [InlineData(MachineState.Suspended)]
    [InlineData(MachineState.Complete)]
    public void It_is_ignored_where_it_is_not_allowed_and_heard_as_a_beat(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        var (place, frames) = (device.PlaceOf(AxisName.X), host.Frames);
        host.Send(host.Number, new Jog(0, IsUp: true));
        Assert.True(host.Wait(() => host.Frames > frames, 0.05));
        host.Pass(0.1);
        Assert.Equal(place, device.PlaceOf(AxisName.X));
        Assert.Equal(state, host.Last.State);
    }

    [ContractFact]
    public void It_is_ignored_without_a_reference_and_for_an_axis_that_the_machine_lacks()
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        var (place, y) = (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y));
        Jog(host, AxisName.Z, up: true, seconds: 0.1);
        Assert.Equal((place, y), (device.PlaceOf(AxisName.X), device.PlaceOf(AxisName.Y)));
        Assert.Equal(Answer.Accepted, host.Tell(Bridge.Runs.SetupMessages.OfMachine(host.Machine))); // the reference is lost
        Jog(host, AxisName.X, up: true, seconds: 0.2);
        Assert.Equal(place, device.PlaceOf(AxisName.X));
    }

    [ContractTheory]
    [InlineData(MachineCommand.Unhold)]
    [InlineData(MachineCommand.Start)]
    public void Stop_is_obeyed_on_the_way_back(MachineCommand goesBack)
    {
        using var device = make(ContractMachines.Plotter, 9);
        var host = new Host(device, ContractMachines.Plotter);
        var origin = GoBack(host, goesBack);
        var from = device.PlaceOf(AxisName.Y);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Stop));
        host.Reach(MachineState.Stopped);
        AssertStoppedSoon(device, from, origin);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Said.Clear();
        host.Reach(MachineState.Idle);
        Assert.InRange(device.PlaceOf(AxisName.X), -9, 9);
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void A_new_host_holds_it_on_the_way_back_and_the_run_goes_on_where_it_was()
    {
        using var device = make(ContractMachines.Plotter, 10);
        var host = new Host(device, ContractMachines.Plotter);
        var origin = GoBack(host, MachineCommand.Unhold);
        var from = device.PlaceOf(AxisName.Y);
        host.Said.Clear();
        host.Hello(0x5678);
        host.Reach(MachineState.Held);
        AssertStoppedSoon(device, from, origin);
        host.Said.Clear();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Situation.Job), host.Worked);
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void Stop_is_obeyed_where_a_held_run_is_being_jogged()
    {
        using var device = make(ContractMachines.Plotter, 11);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Held);
        Jog(host, AxisName.Y, up: true, seconds: 0.2);
        host.Send(host.Number, new Jog((byte)AxisName.Y, IsUp: true));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Stop));
        var from = device.PlaceOf(AxisName.Y);
        host.Reach(MachineState.Stopped);
        Assert.InRange(device.PlaceOf(AxisName.Y) - from, 0, 40 * (60 * 60 / 12_000.0 + 60 * AheadSeconds));
    }

    [ContractFact]
    public void The_e_stop_ends_it_at_once()
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        Jog(host, AxisName.X, up: true, seconds: 0.2);
        device.EStopIsOpen = true;
        host.Pass(0.002);
        var place = device.PlaceOf(AxisName.X);
        Jog(host, AxisName.X, up: true, seconds: 0.1);
        Assert.Equal((place, MachineState.Aborted, StateCause.EStop), (device.PlaceOf(AxisName.X), host.Last.State, host.Last.Cause));
    }

    /// <summary>What is planned ahead of the steps may be done first: about 20 ms, by a controller 28.</summary>
    private const double AheadSeconds = 0.03;

    /// <summary>Jogs Y by some 24 mm and lets it go back for 50 ms; the place that it goes back to.</summary>
    private static double GoBack(Host host, MachineCommand command)
    {
        if (command == MachineCommand.Unhold)
            host.Bring(MachineState.Held);
        else
            host.GetReady();
        var origin = host.Device.PlaceOf(AxisName.Y);
        Jog(host, AxisName.Y, up: true, seconds: 0.4);
        if (command == MachineCommand.Unhold)
            Assert.Equal(Answer.Accepted, host.Tell(command));
        else
            host.Start(Situation.Job);
        host.Said.Clear();
        host.Pass(0.08); // with what it takes to come to rest first
        return origin;
    }

    /// <summary>At 200 mm/s, 6000 mm/s2 and 40 steps/mm.</summary>
    private static void AssertStoppedSoon(IDeviceUnderTest device, double from, double origin)
    {
        var way = from - device.PlaceOf(AxisName.Y);
        Assert.InRange(way, 1, 40 * (200 * 200 / 12_000.0 + 200 * AheadSeconds));
        Assert.True(device.PlaceOf(AxisName.Y) > origin + 40, $"back at {origin} from {from}: it has not stopped on the way");
    }

    /// <summary>Gives leave every 30 ms.</summary>
    private static void Jog(Host host, AxisName axis, bool up, double seconds)
    {
        for (var time = 0.0; time < seconds; time += 0.03)
        {
            host.Send(host.Number, new Jog((byte)axis, up));
            host.Pass(0.03);
        }
    }
}
