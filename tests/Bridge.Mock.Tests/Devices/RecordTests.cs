using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class RecordTests
{
    private static readonly RecordWidth N = RecordWidth.Four;
    private static readonly Record Dot = Record.Row(N, Head.A, new Cell(0, 0), 0, 1);

    private static Bench Begun(uint count)
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        Assert.Equal(Answer.Accepted, bench.Tell(new Begin(1, count)));
        return bench;
    }

    [Fact]
    public void Records_without_a_run_are_refused()
    {
        var bench = new Bench(TestMachines.Plotter);
        Assert.Equal(Answer.NoRun, Ready(bench).TellRecords(0, Dot));

        static Bench Ready(Bench bench)
        {
            bench.GetReady();
            return bench;
        }
    }

    [Fact]
    public void All_records_of_a_message_are_taken_or_none()
    {
        var bench = Begun(3);
        Assert.Equal(Answer.IndexMismatch, bench.TellRecords(1, Dot));
        Assert.Equal(Answer.BadValue, bench.Tell(new Records(0, new byte[4])));
        Assert.Equal(Answer.BeyondRun, bench.TellRecords(0, Dot, Dot, Dot, Dot));
        Assert.Equal(Answer.BadRecord, bench.TellRecords(0, Dot, Record.Again(N, 1, 1)));
        Assert.Equal(Answer.BadRecord, bench.TellRecords(0, Dot, Dot with { Verb = Verb.None }));
        Assert.Equal(Answer.BadRecord, bench.TellRecords(0, Dot, Record.Go(Head.A, default) with { Q = 1 }));
        Assert.Equal(Answer.BadRecord, bench.TellRecords(0, Dot, Record.End));
        Assert.Equal((0u, 3u), (bench.Last.RecordsTaken, bench.Last.RecordsLimit));
        Assert.Equal(Answer.Accepted, bench.TellRecords(0, Dot, Dot, Record.End));
        Assert.Equal((3u, 3u), (bench.Last.RecordsTaken, bench.Last.RecordsLimit));
    }

    [Fact]
    public void Credit_is_the_free_places_of_the_queue()
    {
        var bench = Begun(100);
        Assert.Equal(16u, bench.Last.RecordsLimit);
        Assert.Equal(Answer.QueueOverrun, bench.TellRecords(0, [.. Enumerable.Repeat(Dot, 17)]));
        Assert.Equal(Answer.Accepted, bench.TellRecords(0, [.. Enumerable.Repeat(Dot, 16)]));
        Assert.Equal(16u, bench.Last.RecordsLimit);
        bench.Tell(MachineCommand.Start);
        Assert.Equal(17u, bench.Last.RecordsLimit);
        Assert.Equal(Answer.Accepted, bench.TellRecords(16, Dot));
    }

    [Fact]
    public void A_full_store_without_an_end_completes_with_its_last_record()
    {
        var bench = Begun(2);
        bench.TellRecords(0, Dot, Dot);
        bench.Tell(MachineCommand.Start);
        bench.Reach(MachineState.Complete);
        Assert.Equal((StateCause.JobComplete, 2u), (bench.Last.Cause, bench.Last.RecordsDone));
    }

    [Theory]
    [InlineData("5F 00 00")] // head b, which the one-headed machine lacks
    [InlineData("40 F0 01")] // off the grid along X
    [InlineData("65 0F 02")] // a patch beyond the far Y
    [InlineData("21 00 00")] // up a layer where there is one
    public void A_record_that_leads_out_of_the_machine_stops_the_run(string hex)
    {
        var bench = new Bench(TestMachines.Of(TestMachines.Plotter.A, null));
        bench.GetReady();
        bench.Tell(new Begin(1, 3));
        bench.TellRecords(0, Dot);
        Assert.Equal(Answer.Accepted, bench.Tell(new Records(1, Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal)))));
        bench.Tell(MachineCommand.Start);
        bench.Reach(MachineState.Stopped);
        Assert.Equal((StateCause.BadRecord, 1u), (bench.Last.Cause, bench.Last.RecordsDone));
        Assert.Equal(1, bench.Device.Gantry.CellsWorked);
    }
}
