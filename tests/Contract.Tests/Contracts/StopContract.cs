using System.Buffers;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>What stops at once: STOP, the e-stop, an endstop, abort.</summary>
public abstract class StopContract(DeviceMaker make)
{
    private static readonly byte[] Stop = [0x7F, 0x7F];

    public static TheoryData<MachineState> Lasting => [.. Situation.Lasting];

    [ContractTheory]
    [MemberData(nameof(Lasting))]
    public void Two_stop_octets_abort_in_every_state(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        var before = host.Ask().Cause;
        device.Receive(Stop);
        device.Receive([0x7E]);
        AssertAborted(host, state == MachineState.Aborted ? before : StateCause.StopOctets);
        GoOnFrom(host);
    }

    [ContractTheory]
    [MemberData(nameof(Lasting))]
    public void The_e_stop_aborts_in_every_state(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        var before = host.Ask().Cause;
        device.EStopIsOpen = true;
        AssertAborted(host, state == MachineState.Aborted ? before : StateCause.EStop);
        Assert.True(host.Last.Inputs.HasFlag(BoardInputs.EStopOpen));
        Assert.Equal(Answer.CausePresent, host.Tell(MachineCommand.Clear));
        device.EStopIsOpen = false;
        host.Pass(0.5);
        Assert.Equal(MachineState.Aborted, host.Ask().State); // releasing it starts nothing
        GoOnFrom(host);
    }

    [ContractFact]
    public void An_e_stop_that_is_released_at_once_aborts_all_the_same()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        device.EStopIsOpen = true;
        device.EStopIsOpen = false;
        AssertAborted(host, StateCause.EStop);
        GoOnFrom(host);
    }

    /// <summary>Where STOP may stand: alone, in a frame, after an escape, in a frame that is too long, before a flag, many times over.</summary>
    [ContractTheory]
    [InlineData("7F 7F")]
    [InlineData("7E 08 34 7F 7F")]
    [InlineData("7E 08 34 7D 7F 7F")]
    [InlineData("7F 7F 7F 7F 7F 7F 7F 7F")]
    [InlineData("7E 7E 7F 7F 7E")]
    public void Stop_octets_abort_wherever_they_stand_and_however_they_are_split(string hex)
    {
        var octets = Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
        for (var split = 0; split <= octets.Length; split++)
        {
            using var device = make(ContractMachines.Plotter, 4);
            var host = new Host(device, ContractMachines.Plotter);
            host.Bring(MachineState.Resetting);
            device.Receive(octets.AsSpan(0, split));
            host.Wait(() => false, 0.005);
            device.Receive(octets.AsSpan(split));
            device.Receive([0x7E]);
            AssertAborted(host, StateCause.StopOctets);
        }
    }

    [ContractFact]
    public void Stop_octets_abort_in_a_frame_that_is_too_long_and_without_a_session()
    {
        using var device = make(ContractMachines.Plotter, 5);
        device.Receive([.. Enumerable.Repeat((byte)0x55, 300), .. Stop]);
        device.Advance(TimeSpan.FromMilliseconds(20));
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        device.Receive([0x7E, .. Enumerable.Repeat((byte)0x55, 300), .. Stop, 0x7E]);
        host.Wait(() => false, 0.02);
        AssertAborted(host, StateCause.StopOctets);
    }

    /// <summary>A read of the store keeps a controller busy for longer than the clear and the STOP take to arrive.</summary>
    [ContractFact]
    public void Stop_octets_outdo_a_clear_before_them_however_they_are_split()
    {
        using var device = make(ContractMachines.Plotter, 12);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Store(host.Octets(Situation.Job));
        host.Tell(MachineCommand.Abort);
        for (var split = 0; split < 35; split++)
        {
            var output = new ArrayBufferWriter<byte>();
            FrameEncoder.Encode(host.Session, host.Number++, new StoreRead(0, 1), output);
            FrameEncoder.Encode(host.Session, host.Number++, new Command(MachineCommand.Clear), output);
            byte[] octets = [.. output.WrittenSpan, .. Enumerable.Repeat<byte>(0x7F, 8), 0x7E];
            var first = Math.Min(split, octets.Length);
            device.Receive(octets.AsSpan(0, first));
            host.Wait(() => false, 0.005);
            device.Receive(octets.AsSpan(first));
            Assert.True(host.Wait(() => host.Expected == host.Number && !device.DriversAreOn, 0.1));
            host.Wait(() => false, 0.005);
            Assert.Equal((MachineState.Aborted, false), (host.Ask().State, device.DriversAreOn));
        }

        GoOnFrom(host);
    }

    [ContractFact]
    public void One_7f_stops_nothing()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        device.Receive([0x7F, 0x7E, 0x7F, 0x00, 0x7F, 0x7E, 0x7D, 0x7F, 0x7E]);
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Situation.Job), host.Worked);
    }

    [ContractTheory]
    [InlineData(AxisName.X)]
    [InlineData(AxisName.Y)]
    public void An_endstop_that_closes_in_a_run_aborts_it(AxisName axis)
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        device.Break(axis, EndstopFault.StuckClosed);
        AssertAborted(host, StateCause.EndstopHit);
        device.Break(axis, EndstopFault.None);
        GoOnFrom(host);
    }

    [ContractFact]
    public void An_endstop_whose_wire_is_cut_while_the_machine_stands_in_a_run_aborts_it()
    {
        using var device = make(ContractMachines.Plotter, 13);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Start(Record.Wait(Situation.N, 20), Record.End);
        host.Reach(MachineState.Execute);
        host.Pass(0.1);
        device.Break(AxisName.Y, EndstopFault.StuckClosed);
        host.Reach(MachineState.Aborted, 0.05);
        Assert.Equal((StateCause.EndstopHit, false), (host.Last.Cause, device.DriversAreOn));
    }

    [ContractFact]
    public void What_was_done_stays_told_after_an_abort_and_a_reset_until_the_next_run_begins()
    {
        using var device = make(ContractMachines.Plotter, 14);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Start(Record.Row(Situation.N, Head.A, new Cell(1, 1), 0, 2), Record.Row(Situation.N, Head.A, new Cell(1, 2), 0, 15), Record.End);
        host.ReachCells(2 + 3);
        host.Tell(MachineCommand.Abort);
        host.Reach(MachineState.Aborted);
        var done = (1u, (uint)host.Worked.Count - 2);
        Assert.InRange(done.Item2, 3u, 14u);
        Assert.Equal(done, (host.Ask().RecordsDone, host.Last.CellsDone));
        host.Tell(MachineCommand.Clear);
        host.Reach(MachineState.Stopped);
        host.Tell(MachineCommand.Reset);
        host.Said.Clear();
        host.Reach(MachineState.Idle);
        Assert.Equal(done, (host.Ask().RecordsDone, host.Last.CellsDone));
        Assert.Equal(Answer.Accepted, host.Tell(new Begin(8, 1)));
        Assert.Equal((0u, 0u), (host.Ask().RecordsDone, host.Last.CellsDone));
    }

    [ContractFact]
    public void A_closed_endstop_does_not_keep_clear_from_working()
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        device.Break(AxisName.X, EndstopFault.StuckClosed);
        AssertAborted(host, StateCause.EndstopHit);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Clear));
        host.Reach(MachineState.Stopped);
        Assert.True(host.Last.Inputs.HasFlag(BoardInputs.EndstopX));
    }

    [ContractTheory]
    [InlineData(AxisName.X, EndstopFault.StuckOpen)]
    [InlineData(AxisName.Y, EndstopFault.StuckOpen)]
    [InlineData(AxisName.Z, EndstopFault.StuckOpen)]
    [InlineData(AxisName.X, EndstopFault.StuckClosed)]
    [InlineData(AxisName.Z, EndstopFault.StuckClosed)]
    public void An_endstop_that_fails_ends_referencing(AxisName axis, EndstopFault fault)
    {
        using var device = make(ContractMachines.Dots, 9);
        var host = new Host(device, ContractMachines.Dots);
        host.SetUp();
        device.Break(axis, fault);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Aborted);
        Assert.Equal((StateCause.ReferenceFailed, false), (host.Last.Cause, device.DriversAreOn));
        device.Break(axis, EndstopFault.None);
        host.Tell(MachineCommand.Clear);
        host.Reach(MachineState.Stopped);
        host.Tell(MachineCommand.Reset);
        host.Reach(MachineState.Idle);
        AssertHome(device, AxisName.X);
    }

    [ContractTheory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void From_anywhere_the_axes_find_their_zero_z_first_where_it_is_away_from_the_work(int seed)
    {
        using var device = make(ContractMachines.Dots, seed);
        var host = new Host(device, ContractMachines.Dots);
        host.SetUp();
        host.Said.Clear();
        host.Tell(MachineCommand.Reset);
        host.Reach(MachineState.Idle);
        foreach (var axis in new[] { AxisName.X, AxisName.Y, AxisName.Z })
            AssertHome(device, axis);
        Assert.Equal([0, 0x80, 0xA0, 0xE0], host.Said.Select(status => (int)status.Inputs & 0xE0).Distinct());
        Assert.Equal(0, device.Wrongs);
    }

    [ContractFact]
    public void A_stop_while_it_looks_for_an_endstop_leaves_the_axis_without_a_reference()
    {
        using var device = make(ContractMachines.Plotter, 10);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Resetting);
        host.Pass(0.02);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Stop));
        host.Reach(MachineState.Stopped);
        Assert.Equal(BoardInputs.None, host.Last.Inputs & (BoardInputs.ReferencedX | BoardInputs.ReferencedY));
        host.Tell(MachineCommand.Reset);
        host.Reach(MachineState.Idle);
        AssertHome(device, AxisName.X);
    }

    [ContractFact]
    public void A_machine_that_kept_its_reference_only_goes_home()
    {
        using var device = make(ContractMachines.Plotter, 11);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Complete);
        device.Break(AxisName.X, EndstopFault.StuckOpen); // it would not be found
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Idle);
        Assert.Equal((0, 0, 0), (host.Last.X, host.Last.Y, host.Last.Head));
        AssertHome(device, AxisName.X);
        AssertHome(device, AxisName.Y);
    }

    /// <summary>Over cell 0, the play taken up: 8 steps.</summary>
    private static void AssertHome(IDeviceUnderTest device, AxisName axis) => Assert.InRange(device.PlaceOf(axis), -9, 9);

    private static void AssertAborted(Host host, StateCause cause)
    {
        host.Reach(MachineState.Aborted, 2);
        host.Ask();
        Assert.Equal((MachineState.Aborted, cause), (host.State, host.Last.Cause));
        Assert.Equal(0, (int)host.Last.Inputs & 0xE0);
        Assert.False(host.Device.DriversAreOn);
        var (x, y, cells) = (host.Device.PlaceOf(AxisName.X), host.Device.PlaceOf(AxisName.Y), host.Worked.Count);
        host.Pass(0.3);
        Assert.Equal((x, y, cells), (host.Device.PlaceOf(AxisName.X), host.Device.PlaceOf(AxisName.Y), host.Worked.Count));
        Assert.Equal(0, host.Device.Wrongs);
    }

    /// <summary>After the cause is gone: clear, reset, and a run of its own.</summary>
    private static void GoOnFrom(Host host)
    {
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Clear));
        host.Reach(MachineState.Stopped);
        host.Said.Clear();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Idle);
        Assert.Equal(Answer.NoRun, host.Tell(MachineCommand.Start));
        host.Start(Record.Row(Situation.N, Head.A, new Cell(5, 5), 0, 2), Record.End);
        host.Reach(MachineState.Complete);
        Assert.Equal([new Cell(5, 5), new Cell(6, 5)], host.Worked.TakeLast(2).Select(worked => worked.Cell));
    }
}
