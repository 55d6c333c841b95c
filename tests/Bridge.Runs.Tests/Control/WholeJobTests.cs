using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class WholeJobTests
{
    public static TheoryData<string, string> Jobs => new()
    {
        { "lighthouse.txt", "desktop-gantry.toml" },
        { "kite.csv", "cardboard-plotter.toml" },
        { "heron.png", "wide-plotter.toml" },
    };

    [Theory]
    [MemberData(nameof(Jobs))]
    public void An_example_is_worked_cell_by_cell_in_the_time_that_was_predicted(string shape, string machineFile)
    {
        var machine = Examples.Machine(machineFile);
        var job = Examples.Planned(shape, machine);
        using var rig = new Rig(machine, job);
        var end = rig.ToEnd();
        Assert.True(end.Outcome == RunOutcome.Complete, end.Words);
        rig.HasWorkedAll();
        Assert.Equal(0, rig.Run.Worked.CountDifferences(WorkedCells.Of(job.Image, job.Grid)));
        Assert.DoesNotContain(rig.Watcher.States, seen => seen.State is MachineState.Suspended or MachineState.Held);
        var predicted = Timetable.Of(job.Image, machine).Seconds;
        var took = (rig.Watcher.TimeOf(MachineState.Complete) - rig.Watcher.TimeOf(MachineState.Execute)).TotalSeconds;
        Assert.InRange(took, predicted * 0.995, predicted * 1.005);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void On_a_line_that_drops_damages_and_doubles_a_frame_in_twenty_the_job_is_worked_just_the_same(int seed)
    {
        var noise = new LineNoise(Drop: 0.05, Flip: 0.05, Duplicate: 0.05);
        var faults = new MockFaults { ToDevice = noise, ToHost = noise };
        using var rig = new Rig(Examples.Plotter, Examples.Planned("kite.csv", Examples.Plotter), faults, seed);
        var end = rig.ToEnd();
        Assert.True(end.Outcome == RunOutcome.Complete, $"Seed {seed}: {end.Words}");
        rig.HasWorkedAll();
        Assert.True(rig.Run.Retransmissions > 0 && rig.Run.Received.BadFcs > 0);
    }

    [Fact]
    public void A_job_that_fills_its_store_and_has_no_end_is_run_to_its_last_record()
    {
        var machine = Examples.Plotter with { StoreBytes = 2 * RecordWidth.Four.Bytes };
        var job = Examples.Job(machine,
            Record.Row(RecordWidth.Four, Head.A, new Cell(1, 1), 0, 3), Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 3));
        using var rig = new Rig(machine, job);
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        rig.HasWorkedAll();
        Assert.Equal((2L, 2L), (rig.Run.Progress.Records, rig.Run.Progress.RecordsInAll));
    }

    [Fact]
    public void Commands_at_random_on_a_bad_line_lose_and_repeat_nothing()
    {
        for (var seed = 0; seed < 25; seed++)
        {
            var random = new Random(seed);
            var noise = new LineNoise(Drop: 0.1 * random.NextDouble(), Flip: 0.1 * random.NextDouble(), Duplicate: 0.1 * random.NextDouble());
            using var rig = Rig.OfSmallJob(faults: new MockFaults { ToDevice = noise, ToHost = noise }, seed: seed);
            rig.EachTurn(turn =>
            {
                if (random.Next(50) == 0)
                    rig.Run.Request(random.Next(2) == 0 ? MachineCommand.Hold : MachineCommand.Unhold);
                if (turn == 20_000)
                    rig.Run.Request(MachineCommand.Stop);
            });
            var end = rig.ToEnd();
            Assert.True(end.Outcome is RunOutcome.Complete or RunOutcome.Stopped, $"Seed {seed}: {end.Words}");
            if (end.Outcome == RunOutcome.Complete)
                rig.HasWorkedAll();
            else
                rig.HasWorkedAPart();
        }
    }

    [Fact]
    public void The_queue_is_filled_before_the_start_and_the_journal_is_not_told_of_every_record()
    {
        using var rig = new Rig(Examples.Plotter, Examples.Planned("kite.csv", Examples.Plotter));
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        var entries = rig.Journal.Entries;
        var start = entries.FindIndex(entry => entry.Command == "Start");
        Assert.Contains(entries[..start], entry => entry.Kind == JournalKind.Sent);
        Assert.True(entries.Count(entry => entry.Kind == JournalKind.Sent) <= rig.Run.Progress.RecordsInAll / 4 + 2);
    }
}
