using Bridge.Jobs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Records, their queue and the credit for it.</summary>
public abstract class RecordContract(DeviceMaker make)
{
    private static readonly RecordWidth N = Situation.N;
    private static readonly Record Dot = Record.Row(N, Head.A, new Cell(0, 0), 0, 1);

    [ContractFact]
    public void All_records_of_a_message_are_taken_or_none()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        Assert.Equal(Answer.NoRun, host.TellRecords(0, Dot));
        host.Tell(new Begin(1, 3));
        Assert.Equal(Answer.IndexMismatch, host.TellRecords(1, Dot));
        Assert.Equal(Answer.BadValue, host.Tell(new Records(0, new byte[4])));
        Assert.Equal(Answer.BeyondRun, host.TellRecords(0, Dot, Dot, Dot, Dot));
        Assert.Equal(Answer.BadRecord, host.TellRecords(0, Dot, Record.Again(N, 1, 1)));
        Assert.Equal(Answer.BadRecord, host.TellRecords(0, Dot, Dot with { Verb = Verb.None }));
        Assert.Equal(Answer.BadRecord, host.TellRecords(0, Dot, Record.Go(Head.A, default) with { Q = 1 }));
        Assert.Equal(Answer.BadRecord, host.TellRecords(0, Dot, Record.End)); // an end that is not the last record of the run
        Assert.Equal((0u, 3u), (host.Last.RecordsTaken, host.Last.RecordsLimit));
        Assert.Equal(Answer.Accepted, host.TellRecords(0, Dot, Dot, Record.End));
        Assert.Equal((3u, 3u), (host.Last.RecordsTaken, host.Last.RecordsLimit));
        Assert.Equal(Answer.BeyondRun, host.TellRecords(3, Dot));
    }

    /// <summary>Checks are made in the order of the specification: each of these is wrong in two ways.</summary>
    [ContractFact]
    public void The_first_check_that_fails_is_the_answer()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter);
        var queue = host.Hello().QueueRecords;
        host.Tell(MachineCommand.Clear);
        host.TellMachine();
        host.Tell(MachineCommand.Reset);
        host.Reach(MachineState.Idle);
        Assert.Equal(Answer.NoRun, host.Tell(new Records(5, new byte[4])));
        host.Tell(new Begin(1, 3));
        Assert.Equal(Answer.BadValue, host.Tell(new Records(5, new byte[4])));
        Assert.Equal(Answer.IndexMismatch, host.TellRecords(1, Dot, Dot, Dot));
        var many = Enumerable.Repeat(Dot, Math.Min(18, queue + 1)).ToArray();
        Assert.Equal(Answer.BeyondRun, host.TellRecords(0, many));
        Assert.Equal(Answer.Accepted, host.Tell(new Begin(2, 1000)));
        if (queue < 18)
            Assert.Equal(Answer.QueueOverrun, host.TellRecords(0, [.. many[1..], Record.End]));
    }

    [ContractFact]
    public void Credit_is_the_free_places_of_the_queue()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        uint queue = host.Welcome!.Value.QueueRecords;
        host.Tell(new Begin(1, 1000));
        Assert.Equal(queue, host.Last.RecordsLimit);
        for (uint index = 0; index < queue; index++)
            Assert.Equal(Answer.Accepted, host.TellRecords(index, Dot));
        Assert.Equal(Answer.QueueOverrun, host.TellRecords(queue, Dot));
        Assert.Equal((queue, queue, Answer.QueueOverrun), (host.Last.RecordsTaken, host.Last.RecordsLimit, host.Last.Answer));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Start));
        host.Pass(0.02);
        Assert.Equal(queue + 1, host.Ask().RecordsLimit);
        Assert.Equal(Answer.Accepted, host.TellRecords(queue, Dot));
    }

    [ContractFact]
    public void Begin_forgets_the_run_before()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Tell(new Begin(1, 3));
        host.TellRecords(0, Dot, Dot);
        Assert.Equal(Answer.Accepted, host.Tell(new Begin(2, 2)));
        Assert.Equal((2, 0u, 2u, 0u), (host.Last.RunId, host.Last.RecordsTaken, host.Last.RecordsLimit, host.Last.RecordsDone));
        Assert.Equal(Answer.Accepted, host.TellRecords(0, Record.Row(N, Head.A, new Cell(3, 0), 0, 2), Record.End));
        host.Tell(MachineCommand.Start);
        host.Reach(MachineState.Complete);
        Assert.Equal([new Cell(3, 0), new Cell(4, 0)], host.Worked.Select(worked => worked.Cell));
    }

    [ContractFact]
    public void The_counters_stay_when_a_run_is_over_and_its_records_are_refused()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Complete);
        var status = host.Ask();
        Assert.Equal((StateCause.JobComplete, 7, 3u, 3u, 3u),
            (status.Cause, status.RunId, status.RecordsTaken, status.RecordsLimit, status.RecordsDone));
        Assert.Equal(Answer.NoRun, host.TellRecords(3, Dot));
        host.Tell(MachineCommand.Reset);
        host.Reach(MachineState.Idle);
        Assert.Equal((7, 3u), (host.Ask().RunId, host.Last.RecordsDone));
    }

    [ContractFact]
    public void A_run_without_an_end_completes_with_its_last_record()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        host.Start(Dot, Record.Row(N, Head.A, new Cell(1, 1), 2, 3));
        host.Reach(MachineState.Complete);
        Assert.Equal((StateCause.JobComplete, 2u, 4), (host.Last.Cause, host.Last.RecordsDone, host.Worked.Count));
    }

    [ContractTheory]
    [InlineData("5F 00 00")] // head b, which the one-headed machine lacks
    [InlineData("40 F0 01")] // off the grid along X
    [InlineData("65 0F 02")] // a patch beyond the far Y
    [InlineData("21 00 00")] // up a layer where there is one
    public void A_record_that_leads_out_of_the_machine_stops_the_run_and_keeps_the_reference(string hex)
    {
        var machine = ContractMachines.Of(ContractMachines.Pen(0, 0), null);
        using var device = make(machine, 7);
        var host = new Host(device, machine);
        host.GetReady();
        host.Tell(new Begin(1, 3));
        host.TellRecords(0, Dot);
        Assert.Equal(Answer.Accepted, host.Tell(new Records(1, Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal)))));
        host.Tell(MachineCommand.Start);
        host.Reach(MachineState.Stopped);
        Assert.Equal((StateCause.BadRecord, 1u, 1), (host.Last.Cause, host.Last.RecordsDone, host.Worked.Count));
        Assert.Equal(BoardInputs.ReferencedX | BoardInputs.ReferencedY, host.Last.Inputs);
    }

    [ContractFact]
    public void A_queue_that_runs_dry_suspends_and_goes_on_when_it_fills()
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = new Host(device, ContractMachines.Plotter);
        Starve(host);
        Assert.False(host.Last.Working);
        host.Said.Clear();
        Assert.Equal(Answer.Accepted, host.TellRecords(1, Situation.Job[1..]));
        host.Reach(MachineState.Complete);
        Assert.Equal([MachineState.Unsuspending, MachineState.Execute, MachineState.Completing, MachineState.Complete],
            host.StatesSaid.SkipWhile(state => state == MachineState.Suspended));
    }

    [ContractFact]
    public void A_queue_that_stays_dry_holds_after_the_line_time_out()
    {
        using var device = make(ContractMachines.Plotter, 9);
        var host = new Host(device, ContractMachines.Plotter);
        Starve(host);
        var since = device.Now;
        host.Reach(MachineState.Held);
        Assert.Equal(StateCause.Starved, host.Last.Cause);
        Assert.InRange((device.Now - since).TotalSeconds, 0.28, 0.36);
        Assert.Equal(Answer.Accepted, host.TellRecords(1, Situation.Job[1..]));
        host.Pass(0.5);
        Assert.Equal(MachineState.Held, host.State);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
    }

    /// <summary>One record of a run, and then no more.</summary>
    private static void Starve(Host host)
    {
        host.GetReady();
        Assert.Equal(Answer.Accepted, host.Tell(new Begin(9, (uint)Situation.Job.Length)));
        Assert.Equal(Answer.Accepted, host.TellRecords(0, Situation.Job[0]));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Start));
        host.Reach(MachineState.Suspended);
        Assert.Equal((StateCause.Starved, 1u), (host.Last.Cause, host.Last.RecordsDone));
    }
}
