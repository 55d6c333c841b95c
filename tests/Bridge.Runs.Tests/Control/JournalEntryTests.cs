using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>What stands in the journal of a run.</summary>
public class JournalEntryTests
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void The_first_entry_says_what_is_run_on_what_by_what()
    {
        using var rig = Rig.OfSmallJob(Rig.Settings with { At = Noon });
        rig.ToEnd();
        var begin = rig.Journal.Entries[0];
        Assert.Equal((JournalKind.Begin, FileJournal.Format, Noon, 7, "mock"), (begin.Kind, begin.Format, begin.At, begin.Run, begin.Device));
        Assert.Equal((Examples.Gantry.Name, Examples.Gantry.Digest.ToString(), 11L), (begin.Machine, begin.MachineDigest, begin.Records));
        Assert.Equal(ProvedJob.Of(Examples.SmallJob, Examples.Gantry).JobDigest, begin.JobDigest);
        Assert.Matches(@"^\d+\.\d+\.\d+$", begin.Program);
    }

    [Fact]
    public void A_device_says_what_it_is()
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        var device = Assert.Single(rig.Journal.Entries, entry => entry.Kind == JournalKind.Device);
        Assert.Equal(("0.1", (int)Hello.CurrentVersion, "PowerOn"), (device.Firmware, device.Wire, device.Reset));
    }

    [Fact]
    public void A_change_of_state_tells_the_cause_if_there_is_one_the_place_and_in_a_run_the_work()
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        var states = rig.Journal.Entries.Where(entry => entry.Kind == JournalKind.State).ToList();
        Assert.Equal(("Aborted", "PowerOn", null, null), (states[0].State, states[0].Cause, states[0].Records, states[0].Cells));
        Assert.Equal(("Complete", "JobComplete", 11L, 0L), (states[^1].State, states[^1].Cause, states[^1].Records, states[^1].Cells));
        var last = rig.Cells[^1];
        Assert.Equal($"{last.Cell.X} {last.Cell.Y} {last.Layer} {(last.Head == Jobs.Head.A ? 'a' : 'b')}", states[^1].Position);

        var scripted = new ScriptedRig(script: device => device.Cause = StateCause.None);
        scripted.ToEnd();
        Assert.Null(scripted.Journal.Entries.First(entry => entry.Kind == JournalKind.State).Cause);
    }

    [Fact]
    public void Progress_is_told_at_most_as_often_as_was_asked_for_and_with_the_place()
    {
        using var rig = Rig.OfSmallJob(Rig.Settings with { ProgressInterval = TimeSpan.FromSeconds(2) });
        rig.ToEnd();
        var done = rig.Journal.Entries.Where(entry => entry.Kind == JournalKind.Done).ToList();
        Assert.InRange(done.Count, 4, 40);
        Assert.All(done.Zip(done.Skip(1)), pair => Assert.True(pair.Second.Seconds - pair.First.Seconds >= 1.99));
        Assert.All(done, entry => Assert.Equal(4, entry.Position!.Split(' ').Length));
        Assert.True(rig.Watcher.Progress.Count > done.Count);
    }

    [Fact]
    public void Entries_that_cannot_be_written_are_kept_up_to_a_bound_and_written_in_their_order()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        var changes = 0;
        rig.Journal.Fails = (_, _) => changes is > 0 and < 1500;
        rig.Line.EachTurn = _ =>
        {
            if (changes == 0 && rig.Device.State != MachineState.Execute)
                return;
            if (changes++ < 1500)
                rig.Device.Enter(changes % 2 == 0 ? MachineState.Held : MachineState.Suspended, StateCause.Operator);
            else if (changes > 1600)
                rig.Run.Request(MachineCommand.Stop);
        };
        Assert.Equal(RunOutcome.Stopped, rig.ToEnd().Outcome);
        Assert.Equal(Enumerable.Range(0, rig.Journal.Entries.Count), rig.Journal.Entries.Select(entry => (int)entry.N));
        var flood = rig.Journal.Entries.Count(entry => entry is { Kind: JournalKind.State, State: "Held" or "Suspended" });
        Assert.InRange(flood, 990, 1000); // and the command to hold, which is kept too
        Assert.Equal("End", rig.Journal.Entries[^1].Kind.ToString());
    }

    [Fact]
    public async Task A_run_that_is_taken_up_says_by_whom_and_how_much_had_been_sent()
    {
        using var rig = Rig.OfSmallJob();
        var job = ProvedJob.Of(Examples.SmallJob, Examples.Gantry);
        rig.EachTurn(_ =>
        {
            if (rig.Device.Gantry.CellsWorked >= 5)
                throw new OperationCanceledException("the host dies");
        });
        Assert.Throws<OperationCanceledException>(() => rig.ToEnd());
        rig.Line.Dispose();
        rig.Port.LetPass(TimeSpan.FromSeconds(5));
        var history = RunHistory.Of(new JournalFile(rig.Journal.Entries, 0, null), "journal", job);
        var before = rig.Journal.Entries.Count;
        rig.Journal.Written = null;
        using var line = rig.Port.Open();
        var run = new RunController(job, Rig.Settings with { Token = 0x7777, Device = "another", At = Noon }, rig.Journal, new Onlooker(),
            Resumption.OnDevice(history));
        Assert.Equal(RunOutcome.Complete, (await RunLoop.RunAsync(run, line, rig.Time)).Outcome);
        var takeUp = rig.Journal.Entries[before];
        Assert.Equal((JournalKind.TakeUp, history.Sent, 7, "another", Noon, (long)before),
            (takeUp.Kind, takeUp.Records, takeUp.Run, takeUp.Device, takeUp.At, takeUp.N));
        Assert.NotNull(takeUp.Program);
        Assert.Equal([MachineCommand.Unhold.ToString()], rig.Journal.Entries.Skip(before).Select(entry => entry.Command).OfType<string>());
    }
}
