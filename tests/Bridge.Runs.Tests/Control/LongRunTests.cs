using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Runs.Tests;

[CollectionDefinition(nameof(LongRuns), DisableParallelization = true)]
public class LongRuns;

[Collection(nameof(LongRuns))]
public class LongRunTests
{
    [Fact]
    public void A_million_records_need_no_more_memory_than_a_few()
    {
        var machine = Examples.Machine("wide-plotter.toml");
        var width = machine.Width;
        var records = new List<Record>();
        for (var round = 0; round < 8; round++)
            records.AddRange([
                Record.Row(width, Head.A, new Cell(round, 0), 0, 1),
                Record.Row(width, Head.A, new Cell(round, 1), 0, 1),
                Record.Again(width, 2, 65_536)]);
        var job = ProvedJob.Of(Examples.Job(machine, [.. records, Record.End]), machine);
        Assert.True(job.RecordsToSend > 1_000_000);
        var time = new VirtualTime();
        var device = new ScriptedDevice(time) { RecordBytes = width.Bytes, QueueRecords = 255 };
        var run = new RunController(job, Rig.Settings, new Forgetful(), new Quiet());
        var line = new WatchedLine(device, time);
        var (least, most) = (long.MaxValue, 0L);
        var looked = 0;
        line.EachTurn = _ =>
        {
            if (device.Done < (looked + 1) * 100_000)
                return;
            looked++;
            var memory = GC.GetTotalMemory(forceFullCollection: true);
            (least, most) = (Math.Min(least, memory), Math.Max(most, memory));
        };
        var end = RunLoop.RunAsync(run, line, time);
        Assert.True(end.IsCompletedSuccessfully);
        Assert.Equal(job.RecordsToSend, run.Progress.Records);
        Assert.Equal(10, looked);
        Assert.True(most - least < 1_000_000, $"It grew by {most - least} bytes.");
    }

    private sealed class Forgetful : IJournal
    {
        public bool TryAppend(JournalEntry entry, out string why)
        {
            why = "";
            return true;
        }
    }

    private sealed class Quiet : IRunWatcher
    {
        public void StateChanged(RunProgress progress)
        {
        }

        public void Progressed(RunProgress progress)
        {
        }

        public void Told(string words)
        {
        }
    }
}
