using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class JournalTroubleTests
{
    private static readonly RunSettings Attended = Rig.Settings;
    private static readonly RunSettings Unattended = Rig.Settings with { HeldPatience = TimeSpan.FromSeconds(10) };

    private static readonly int Writes = CountWrites();

    [Fact]
    public void Failing_at_any_write_and_whole_again_the_run_goes_on_when_it_is_told_to_and_loses_nothing()
    {
        for (var write = 0; write < Writes; write++)
        {
            using var rig = OfTinyJob(Attended);
            var failing = write;
            var (roomAt, letGoAt) = (TimeSpan.MaxValue, TimeSpan.MaxValue);
            rig.Journal.Fails = (number, _) =>
            {
                if (number == failing)
                    (roomAt, letGoAt) = (rig.Time.Now + Gap(failing), rig.Time.Now + Gap(failing) * 2);
                return number >= failing && rig.Time.Now < roomAt;
            };
            rig.PerhapsOnce(() => rig.Time.Now >= letGoAt, () => rig.Run.Request(MachineCommand.Unhold));
            rig.EachTurn(_ => Assert.False(IsMovingOnItsOwn(rig, roomAt), $"Write {failing}: it goes on with the journal unwritten."));
            var end = rig.ToEnd();
            if (failing == Writes - 1)
            {
                Assert.Equal(RunOutcome.JournalFailed, end.Outcome); // the end itself
                continue;
            }

            Assert.True(end.Outcome == RunOutcome.Complete || IsAtTheEnd(rig, end), $"Write {failing}: {end}");
            rig.HasWorkedAll();
        }
    }

    [Fact]
    public void Failing_for_good_at_any_write_the_machine_is_held_and_then_stopped_and_nothing_more_is_sent()
    {
        for (var write = 0; write < Writes; write++)
        {
            using var rig = OfTinyJob(Unattended);
            var failing = write;
            var takenAtFailure = -1L;
            rig.Journal.Fails = (number, _) =>
            {
                if (number == failing)
                    takenAtFailure = rig.Device.Status.RunId == 0 ? 0 : rig.Journal.Sent;
                return number >= failing;
            };
            var end = rig.ToEnd();
            Assert.True(end.Outcome == RunOutcome.JournalFailed, $"Write {failing}: {end}");
            Assert.Contains("journal", end.Words);
            Assert.Equal(failing, rig.Journal.Entries.Count);
            Assert.True(rig.Device.Status.RecordsTaken <= takenAtFailure);
            rig.HasWorkedAPart();
            Assert.Contains(rig.Device.State, new[] { MachineState.Aborted, MachineState.Stopped, MachineState.Complete });
        }
    }

    [Fact]
    public void Unhold_is_refused_while_the_journal_cannot_be_written_and_Stop_and_Abort_are_not()
    {
        foreach (var command in new[] { MachineCommand.Stop, MachineCommand.Abort })
        {
            using var rig = OfTinyJob(Attended);
            rig.Journal.Fails = (_, _) => rig.Device.Gantry.CellsWorked >= 3;
            rig.Once(() => rig.Device.State == MachineState.Held, () => rig.Run.Request(MachineCommand.Unhold));
            rig.Once(() => rig.Time.Now > TimeSpan.FromMinutes(1), () => rig.Run.Request(command));
            var end = rig.ToEnd();
            Assert.Equal(command == MachineCommand.Stop ? RunOutcome.JournalFailed : RunOutcome.Aborted, end.Outcome);
            Assert.Contains("could not be written", end.Words);
            Assert.Contains(rig.Watcher.Words, words => words.StartsWith("Not yet", StringComparison.Ordinal));
            Assert.True(rig.Time.Now >= TimeSpan.FromMinutes(1));
            rig.HasWorkedAPart();
        }
    }

    [Fact]
    public void Room_that_is_made_just_before_the_end_is_enough_for_it()
    {
        using var rig = OfTinyJob(Attended);
        var isFull = false;
        rig.AtCell(cell => isFull |= cell == 3);
        rig.Journal.Fails = (_, _) => isFull;
        rig.Once(() => rig.Time.Now > TimeSpan.FromMinutes(1), () => rig.Run.Request(MachineCommand.Stop));
        rig.Once(() => rig.Device.State == MachineState.Stopped && rig.Time.Now > TimeSpan.FromMinutes(1), () => isFull = false);
        Assert.Equal(RunOutcome.Stopped, rig.ToEnd().Outcome);
        var end = rig.Journal.Entries[^1];
        Assert.Equal((JournalKind.End, "Stopped", rig.Device.Status.RecordsDone, rig.Device.Status.CellsDone),
            (end.Kind, end.Outcome, (uint)end.Records!.Value, (uint)end.Cells!.Value));
    }

    [Fact]
    public void A_run_whose_end_cannot_be_written_is_not_called_complete()
    {
        using var rig = OfTinyJob();
        rig.Journal.Fails = (_, entry) => entry.Kind == JournalKind.End;
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.JournalFailed, end.Outcome);
        Assert.Contains("executed to its end", end.Words);
        Assert.DoesNotContain(rig.Journal.Entries, entry => entry.Kind == JournalKind.End);
        rig.HasWorkedAll();
    }

    [Fact]
    public void On_a_disk_that_fills_at_any_length_the_file_holds_whole_true_entries()
    {
        var whole = new FullDisk(long.MaxValue);
        Assert.Equal(RunOutcome.Complete, RunOn(whole).Outcome);
        for (var room = 0; room < whole.Contents.Length; room += 13)
        {
            var disk = new FullDisk(room);
            Assert.Equal(RunOutcome.JournalFailed, RunOn(disk).Outcome);
            Assert.True(disk.Contents.Length <= room);
            Assert.Equal(disk.Contents, whole.Contents.Take(disk.Contents.Length));
            Assert.Equal(whole.Contents.AsSpan(0, room).LastIndexOf((byte)'\n') + 1, disk.Contents.Length); // each entry that there was room for, whole
        }
    }

    [Fact]
    public void Every_command_that_was_sent_is_in_the_journal_before_it()
    {
        var rig = new ScriptedRig();
        rig.Device.Heard = type =>
        {
            if (type == MessageType.Command)
                Assert.Equal(rig.Device.Commands.Select(command => command.ToString()), rig.Journal.Entries.Select(entry => entry.Command).OfType<string>());
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal([MachineCommand.Clear, MachineCommand.Reset, MachineCommand.Start], rig.Device.Commands);
    }

    // Before a run has begun there is little patience.
    private static TimeSpan Gap(int write) => TimeSpan.FromSeconds(write == 0 ? 2 : 120);

    private static RunEnd RunOn(FullDisk disk)
    {
        using var journal = new FileJournal(disk, JournalFile.Empty);
        using var rig = new Rig(Examples.Gantry, Examples.TinyJob, settings: Unattended, journal: journal);
        var end = rig.ToEnd();
        rig.HasWorkedAPart();
        return end;
    }

    private static Rig OfTinyJob(RunSettings? settings = null) => new(Examples.Gantry, Examples.TinyJob, settings: settings);

    private static int CountWrites()
    {
        using var rig = OfTinyJob();
        rig.ToEnd();
        return rig.Journal.Entries.Count;
    }

    // Long after the journal failed and before there is room, a machine may be referencing no more, nor execute.
    private static bool IsMovingOnItsOwn(Rig rig, TimeSpan roomAt) => rig.Journal.Failures > 0 && rig.Time.Now < roomAt
        && rig.Time.Now > roomAt - TimeSpan.FromSeconds(30) && rig.Device.IsMovingState();

    // A job whose last records were in the machine's queue may end before it can be held.
    private static bool IsAtTheEnd(Rig rig, RunEnd end) => end.Outcome == RunOutcome.JournalFailed && rig.Device.State == MachineState.Complete;
}

file static class MockDeviceStates
{
    public static bool IsMovingState(this Mock.MockDevice device) => device.State is MachineState.Execute or MachineState.Resetting or MachineState.Starting;
}
