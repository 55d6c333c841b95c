using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Stored jobs.</summary>
public abstract class StoreContract(DeviceMaker make)
{
    private static readonly RecordWidth N = Situation.N;

    /// <summary>Two dots three times, then one of them twice, by `again`.</summary>
    private static readonly Record[] Job =
    [
        Record.Row(N, Head.A, new Cell(3, 3), 2, 2), Record.Again(N, 1, 2), Record.Row(N, Head.A, new Cell(7, 3), 2, 2), Record.Again(N, 1, 1),
        Record.End,
    ];

    [ContractFact]
    public void A_job_is_stored_and_read_back()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = Ready(device);
        byte[] image = [.. Enumerable.Range(0, 255).Select(index => host.Octets(Record.Row(N, Head.A, new Cell(1, 2), 0, 5))[index % 3])];
        Assert.Equal(Answer.Accepted, host.Store(image));
        var read = new List<byte>();
        while (read.Count < image.Length)
        {
            Assert.Equal(Answer.Accepted, host.ReadStored(read.Count, Math.Min(Stored.MaxOctets, image.Length - read.Count), out var octets));
            Assert.Equal((image.Length, read.Count), (host.Stored.ImageLength, host.Stored.Offset));
            read.AddRange(octets);
        }

        Assert.Equal(image, read);
        Assert.Equal(Answer.BadValue, host.ReadStored(250, 6, out _));
    }

    [ContractFact]
    public void A_stored_job_runs_with_again_and_without_a_word_from_the_host()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        Assert.Equal(Answer.Accepted, host.BeginStored(99));
        Assert.Equal((99, 0u, 0u), (host.Last.RunId, host.Last.RecordsTaken, host.Last.RecordsLimit));
        Assert.Equal(Answer.QueueOverrun, host.TellRecords(0, Job[0]));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Start));
        host.IsQuiet = true;
        host.Reach(MachineState.Complete);
        Assert.Equal((StateCause.JobComplete, 6u, 6u, 6u), (host.Last.Cause, host.Last.RecordsDone, host.Last.RecordsTaken, host.Last.RecordsLimit));
        Assert.Equal(Jobs.CellsOf(host.Machine, Job), host.Worked);
    }

    [ContractFact]
    public void A_stored_job_is_held_and_goes_on()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        host.BeginStored(1);
        host.Tell(MachineCommand.Start);
        host.ReachCells(3);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Hold));
        host.Said.Clear();
        host.Reach(MachineState.Held);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Job), host.Worked);
    }

    [ContractFact]
    public void A_new_session_holds_a_stored_run()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = Ready(device);
        host.Store(host.Octets(Job));
        host.BeginStored(1);
        host.Tell(MachineCommand.Start);
        host.ReachCells(2);
        host.Hello(0x7777);
        host.Reach(MachineState.Held);
        Assert.Equal(StateCause.HostRestarted, host.Last.Cause);
    }

    [ContractFact]
    public void A_full_store_needs_no_end()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = Ready(device);
        host.Store(host.Octets(Job[0], Job[2]));
        host.BeginStored(1);
        host.Tell(MachineCommand.Start);
        host.Reach(MachineState.Complete);
        Assert.Equal((2u, 4), (host.Last.RecordsDone, host.Worked.Count));
    }

    [ContractFact]
    public void Nothing_stored_is_said_so()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = Ready(device);
        Assert.Equal(Answer.StoreBlank, host.ReadStored(0, 1, out _));
        Assert.Equal(Answer.StoreBlank, host.BeginStored(1));
        Assert.Equal(Answer.WrongState, host.TellRaw((byte)MessageType.StoreData, 0, 0, 1));
        Assert.Equal(Answer.WrongState, host.TellRaw((byte)MessageType.StoreCommit, 0, 0));
    }

    [ContractFact]
    public void What_is_wrong_with_a_job_that_is_being_written_is_said_and_the_old_one_stays()
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = Ready(device);
        var store = host.Welcome!.Value.StoreBytes;
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        Assert.Equal(Answer.StoreFull, host.TellPatiently((byte)MessageType.StoreBegin, (byte)((store + 1) >> 8), (byte)(store + 1)));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreBegin, 0, 4));
        Assert.Equal(Answer.IndexMismatch, host.TellPatiently((byte)MessageType.StoreData, 0, 1, 0xAA));
        Assert.Equal(Answer.StoreFull, host.TellPatiently((byte)MessageType.StoreData, 0, 0, 1, 2, 3, 4, 5));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreData, 0, 0, 0x40, 0x12, 0x04));
        Assert.Equal(Answer.IndexMismatch, host.TellPatiently((byte)MessageType.StoreCommit, 0, 0));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreData, 0, 3, 0));
        Assert.Equal(Answer.StoreDamaged, host.TellPatiently((byte)MessageType.StoreCommit, 0, 0));
        Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out var octets));
        Assert.Equal(host.Octets(Job[0]), octets);
    }

    [ContractTheory]
    [InlineData("E0 00 00")]          // verb 7
    [InlineData("20 11 01")]          // a bit that go does not use
    [InlineData("A0 00 00")]          // again before the first record
    [InlineData("40 00 00 A0 01 00")] // the same, by one
    [InlineData("40 00 00 A0 00 00 A0 01 00")] // again over again
    [InlineData("40 00")]             // no whole record
    public void A_job_of_bad_records_is_not_stored(string hex)
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = Ready(device);
        Assert.Equal(Answer.BadRecord, host.Store(Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal))));
        Assert.Equal(Answer.StoreBlank, host.BeginStored(1));
    }

    [ContractFact]
    public void A_stored_record_that_leads_out_of_the_grid_stops_the_run()
    {
        using var device = make(ContractMachines.Plotter, 9);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job[0], Record.Row(N, Head.A, new Cell(15, 0), 0, 2), Record.End)));
        host.BeginStored(1);
        host.Tell(MachineCommand.Start);
        host.Reach(MachineState.Stopped);
        Assert.Equal((StateCause.BadRecord, 1u), (host.Last.Cause, host.Last.RecordsDone));
    }

    [ContractFact]
    public void A_job_stored_for_another_machine_is_foreign()
    {
        using var device = make(ContractMachines.Plotter, 10);
        var host = Ready(device);
        host.Store(host.Octets(Job));
        var other = SetupMessages.OfMachine(host.Machine) with { Digest = DigestPrefix.Of([1, 2, 3, 4, 5, 6, 7, 8]) };
        Assert.Equal(Answer.Accepted, host.Tell(other));
        Assert.Equal(Answer.NotReferenced, host.BeginStored(1));
        host.Tell(MachineCommand.Stop);
        host.Reach(MachineState.Stopped);
        host.Tell(MachineCommand.Reset);
        host.Said.Clear();
        host.Reach(MachineState.Idle);
        Assert.Equal(Answer.StoreForeign, host.BeginStored(1));
    }

    [ContractTheory]
    [InlineData(MachineState.Execute)]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Complete)]
    public void A_job_is_not_written_while_a_run_is_on(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 11);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        Assert.Equal(Answer.WrongState, host.TellRaw((byte)MessageType.StoreBegin, 0, 3));
        Assert.Equal(Answer.WrongState, host.TellRaw((byte)MessageType.BeginStored, 0, 1));
    }

    [ContractTheory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_job_that_is_written_ends_a_run_that_has_begun(bool isStored)
    {
        using var device = make(ContractMachines.Plotter, 16);
        var host = Ready(device);
        Record[] old = [.. Enumerable.Range(2, 4).Select(y => Record.Row(N, Head.A, new Cell(1, y), 0, 1))];
        Record[] next = [.. Enumerable.Range(8, 4).Select(y => Record.Row(N, Head.A, new Cell(8, y), 0, 1))];
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(old)));
        Assert.Equal(Answer.Accepted, isStored ? host.BeginStored(1) : host.Tell(new Begin(1, 4)));
        Assert.Equal(Answer.StoreFull, host.TellRaw((byte)MessageType.StoreBegin, 0xFF, 0xFF)); // what is refused ends nothing
        Assert.NotEqual(Answer.NoRun, host.TellRecords(0, old[0]));
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(next)));
        Assert.Equal(Answer.NoRun, host.TellRecords(0, old[0]));
        Assert.Equal(Answer.NoRun, host.Tell(MachineCommand.Start));
        Assert.Equal((MachineState.Idle, 0u), (host.Ask().State, host.Last.RecordsDone));
        Assert.Equal(Answer.Accepted, host.BeginStored(2));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Start));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, next), host.Worked);
    }

    [ContractFact]
    public void A_stored_job_that_is_held_and_read_goes_on_as_it_began()
    {
        using var device = make(ContractMachines.Plotter, 17);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Record.Row(N, Head.A, new Cell(9, 9), 0, 2), Record.End)));
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        host.BeginStored(1);
        host.Tell(MachineCommand.Start);
        for (var cells = 1; cells <= 5; cells++)
        {
            host.ReachCells(cells);
            Assert.Equal(Answer.StoreBusy, host.Tell(new StoreRead(0, 3))); // while it moves
            Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Hold));
            host.Reach(MachineState.Held);
            Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out var octets));
            Assert.Equal(host.Octets(Job[0]), octets);
            Assert.Equal(MachineState.Held, host.State);
            host.Said.Clear();
            Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        }

        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Job), host.Worked);
    }

    /// <summary>One message each time: what is written may be one octet of lasting memory, which is soon done.</summary>
    [ContractTheory]
    [InlineData(MessageType.StoreBegin)]
    [InlineData(MessageType.StoreData)]
    [InlineData(MessageType.StoreCommit)]
    [InlineData(MessageType.StoreRead)]
    [InlineData(MessageType.BeginStored)]
    public void Every_message_of_the_store_finds_it_busy_while_it_is_being_written(MessageType message)
    {
        using var device = make(ContractMachines.Plotter, 13);
        var host = Ready(device);
        var image = host.Octets(Job);
        Assert.Equal(Answer.Accepted, host.Tell(new StoreBegin((ushort)image.Length)));
        Assert.Equal(Answer.StoreBusy, Tell(host, message));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreData, [0, 0, .. image]));
        if (message != MessageType.StoreBegin) // which may break off what has been begun
            Assert.Equal(Answer.StoreBusy, Tell(host, message));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreCommit, (byte)(Fcs16.Of(image) >> 8), (byte)Fcs16.Of(image)));
        Assert.Equal(Answer.StoreBusy, Tell(host, message));
        Assert.Equal(Answer.Accepted, host.BeginStored(1));
        Assert.Equal(Answer.WrongState, host.Tell(new StoreCommit(0))); // nothing has been begun any more
    }

    [ContractFact]
    public void A_job_that_is_begun_and_not_committed_is_dropped_by_a_run_of_the_one_that_is_stored()
    {
        using var device = make(ContractMachines.Plotter, 14);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreBegin, 0, 3));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreData, 0, 0, 0x40));
        Assert.Equal(Answer.Accepted, host.BeginStored(1));
        Assert.Equal(Answer.WrongState, host.TellPatiently((byte)MessageType.StoreData, 0, 1, 0x12));
        host.Tell(MachineCommand.Start);
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Job), host.Worked);
    }

    /// <summary>What is written of the machine is of one machine, and so is not a mixture of two.</summary>
    [ContractTheory]
    [InlineData(0)]
    [InlineData(0.2)]
    [InlineData(1)]
    public void A_job_that_is_begun_is_dropped_when_the_machine_is_told_anew_and_the_old_one_stays(double seconds)
    {
        using var device = make(ContractMachines.Plotter, 18);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreBegin, 0, 3));
        host.Pass(seconds);
        Assert.Equal(Answer.Accepted, host.Tell(SetupMessages.OfHeads(host.Machine).Last()));
        Assert.Equal(Answer.WrongState, host.TellPatiently((byte)MessageType.StoreData, 0, 0, 0x40, 0x12, 0x04));
        Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out var octets));
        Assert.Equal(host.Octets(Job[0]), octets);
    }

    [ContractFact]
    public void A_job_that_is_committed_is_not_dropped_by_a_machine_that_is_told_anew()
    {
        using var device = make(ContractMachines.Plotter, 19);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        Assert.Equal(Answer.Accepted, host.Tell(SetupMessages.OfMachine(host.Machine)));
        Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out var octets));
        Assert.Equal(host.Octets(Job[0]), octets);
    }

    /// <summary>Power that fails in the middle of any part of the writing leaves the old job.</summary>
    [ContractTheory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void What_is_written_when_the_power_fails_is_lost_and_the_old_job_stays(int messages)
    {
        using var device = make(ContractMachines.Plotter, 15);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        byte[] image = [0x40, 0x12, 0x04];
        Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreBegin, 0, 3));
        if (messages > 0)
            Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreData, [0, 0, .. image]));
        if (messages > 1)
            Assert.Equal(Answer.Accepted, host.TellPatiently((byte)MessageType.StoreCommit, (byte)(Fcs16.Of(image) >> 8), (byte)Fcs16.Of(image)));
        device.Reset(ResetReason.PowerOn);
        host.Hello(0x5151);
        Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out var octets));
        Assert.Equal(host.Octets(Job[0]), octets);
    }

    [ContractFact]
    public void The_store_is_not_read_while_the_machine_moves()
    {
        using var device = make(ContractMachines.Plotter, 16);
        var host = Ready(device);
        Assert.Equal(Answer.Accepted, host.Store(host.Octets(Job)));
        Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out _));
        host.Tell(MachineCommand.Stop);
        host.Reach(MachineState.Stopped, 1);
        host.TellMachine();
        host.Said.Clear();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Pass(0.2);
        Assert.Equal(Answer.StoreBusy, Tell(host, MessageType.StoreRead));
        host.Reach(MachineState.Idle);
        Assert.Equal(Answer.Accepted, host.ReadStored(0, 3, out _));
    }

    private static Answer Tell(Host host, MessageType message) => message switch
    {
        MessageType.StoreBegin => host.Tell(new StoreBegin(3)),
        MessageType.StoreData => host.Tell(new StoreData(0, [1])),
        MessageType.StoreCommit => host.Tell(new StoreCommit(0)),
        MessageType.StoreRead => host.Tell(new StoreRead(0, 1)),
        _ => host.Tell(new BeginStored(1)),
    };

    [ContractFact]
    public void A_job_needs_a_machine_to_be_stored_for()
    {
        using var device = make(ContractMachines.Plotter, 12);
        var host = new Host(device, ContractMachines.Plotter);
        host.Hello();
        Assert.Equal(Answer.NoSetup, host.TellRaw((byte)MessageType.StoreBegin, 0, 3));
    }

    private static Host Ready(IDeviceUnderTest device)
    {
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        return host;
    }
}
