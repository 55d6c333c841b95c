using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>Runs that are cut off anywhere and gone on with, against the gantry's truth.</summary>
public class ResumeTests
{
    private static readonly ProvedJob Job = ProvedJob.Of(Examples.SmallJob, Examples.Gantry);

    [Fact]
    public void A_host_that_dies_in_any_turn_is_followed_by_one_that_goes_on_at_the_next_cell()
    {
        var held = 0;
        for (var turn = 1; turn < 2000; turn += 7)
        {
            using var rig = Rig.OfSmallJob();
            var last = turn;
            if (!Dies(rig, () => rig.Line.Turns > last))
                break;
            rig.Port.LetPass(TimeSpan.FromSeconds(5));
            var history = History(rig.Journal);
            var point = ResumePoint.Of(history, Job, rig.Device.Status);
            if (point is not ResumePoint.OnDevice)
            {
                Assert.Empty(rig.Device.Gantry.Worked); // it died before the start
                continue;
            }

            held++;
            Assert.Equal(RunOutcome.Complete, GoOn(rig.Port, rig.Time, rig.Journal, Resumption.OnDevice(history), out var run));
            Assert.Equal(rig.Cells, rig.Device.Gantry.Worked);
            Assert.Equal(rig.Cells.Count, run.Worked.Counts.A + run.Worked.Counts.B);
            Assert.Equal(RunOutcome.Complete, History(rig.Journal).Outcome);
        }

        Assert.True(held > 20, $"{held} of the deaths were in the midst of the work.");
    }

    [Fact]
    public void Nothing_moves_until_somebody_goes_on()
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 5));
        rig.Port.LetPass(TimeSpan.FromSeconds(5));
        rig.StaysSo();
        using var back = rig.Port.Open();
        rig.Port.LetPass(TimeSpan.FromMinutes(1));
        Assert.Equal(MachineState.Held, rig.Device.State);
    }

    [Fact]
    public async Task A_run_that_awaits_its_start_on_a_held_device_is_started_and_not_gone_on_with()
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 5));
        rig.Port.LetPass(TimeSpan.FromSeconds(5));
        var worked = rig.Device.Gantry.CellsWorked;
        rig.Journal.Written = null;
        using var line = new WatchedLine(rig.Port.Open(), rig.Time);
        var run = new RunController(Job, Rig.Settings with { Token = 0x7777, AwaitsStart = true }, rig.Journal, new Onlooker(),
            Resumption.OnDevice(History(rig.Journal)));
        MachineCommand[] asked = [MachineCommand.Unhold, MachineCommand.Hold, MachineCommand.Unhold, MachineCommand.Start];
        var (next, at) = (0, TimeSpan.MaxValue);
        line.EachTurn = _ =>
        {
            if (next == 0 && run.Progress.AwaitsStart && at == TimeSpan.MaxValue)
                at = rig.Time.Now;
            if (next == asked.Length || rig.Time.Now < at)
                return;
            Assert.Equal((worked, MachineState.Held), (rig.Device.Gantry.CellsWorked, rig.Device.State));
            at = rig.Time.Now + TimeSpan.FromSeconds(10);
            run.Request(asked[next++]);
        };
        Assert.Equal((RunOutcome.Complete, asked.Length), ((await RunLoop.RunAsync(run, line, rig.Time)).Outcome, next));
        Assert.Equal(rig.Cells, rig.Device.Gantry.Worked);
    }

    [Theory]
    [InlineData(false, RunOutcome.Stopped, MachineState.Stopped)]
    [InlineData(true, RunOutcome.Aborted, MachineState.Aborted)]
    public async Task A_run_that_was_gone_on_with_on_its_device_is_stopped_as_any_other(bool byEStop, RunOutcome outcome, MachineState state)
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 5));
        rig.Port.LetPass(TimeSpan.FromSeconds(5));
        rig.Journal.Written = null;
        using var line = new WatchedLine(rig.Port.Open(), rig.Time);
        var run = new RunController(Job, Rig.Settings with { Token = 0x7777 }, rig.Journal, new Onlooker(), Resumption.OnDevice(History(rig.Journal)));
        var isAsked = false;
        line.EachTurn = _ =>
        {
            if (isAsked || rig.Device.Gantry.CellsWorked < 9)
                return;
            isAsked = true;
            if (byEStop)
                rig.Device.Gantry.PressEStop();
            else
                run.Request(MachineCommand.Stop);
        };
        Assert.Equal((outcome, state), ((await RunLoop.RunAsync(run, line, rig.Time)).Outcome, rig.Device.State));
        Assert.True(isAsked);
        Assert.InRange(rig.Device.Gantry.Worked.Count, 9, rig.Cells.Count - 1);
    }

    [Fact]
    public async Task A_device_that_no_longer_holds_the_run_is_not_set_going()
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 5));
        rig.Journal.Written = null;
        using var other = new OtherDevice();
        using var line = other.Port.Open();
        var run = new RunController(Job, Rig.Settings with { Token = 0x7777 }, rig.Journal, new Onlooker(), Resumption.OnDevice(History(rig.Journal)));
        var end = await RunLoop.RunAsync(run, line, other.Time);
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.StartsWith("The device no longer holds the run: it is Aborted", end.Words, StringComparison.Ordinal);
        Assert.Contains("Nothing was started, and it was given no command.", end.Words, StringComparison.Ordinal);
        Assert.StartsWith("Go on once more", end.WhatToDo, StringComparison.Ordinal);
        Assert.Equal(0, other.Device.Gantry.CellsWorked);
    }

    [Fact]
    public void A_run_that_is_taken_up_and_stopped_before_its_device_is_heard_says_so()
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 5));
        rig.Journal.Written = null;
        var run = new RunController(Job, Rig.Settings with { Token = 0x7777 }, rig.Journal, new Onlooker(), Resumption.OnDevice(History(rig.Journal)));
        run.Request(MachineCommand.Stop);
        run.Tick(TimeSpan.Zero);
        Assert.Equal("The run was stopped before anything was started anew; the machine was not set going. What was done before stands in its journal.",
            run.End!.Words);
        Assert.NotNull(((ResumePoint.AfterRestart)ResumePoint.Of(History(rig.Journal), Job, new OtherDevice().Device.Status)).Doubt);
    }

    [Fact]
    public void Before_its_device_is_heard_a_run_stands_where_its_journal_knows_it_to()
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 17));
        rig.Journal.Written = null;
        var history = History(rig.Journal);
        var cells = CourseTests.CellsBefore(Examples.SmallJob, history.Known);
        Assert.True(history.Known.Records > 0);
        var run = new RunController(Job, Rig.Settings with { Token = 0x7777 }, rig.Journal, new Onlooker(), Resumption.OnDevice(history));
        Assert.Equal((history.Known.Records, cells, cells), (run.Progress.Records, run.Progress.Cells, run.Worked.Counts.A + run.Worked.Counts.B));
        run.Request(MachineCommand.Stop);
        run.Tick(TimeSpan.Zero);
        Assert.Equal((history.Known.Records, cells, cells), (run.Progress.Records, run.Progress.Cells, run.Worked.Counts.A + run.Worked.Counts.B));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_device_that_was_reset_is_led_back_and_only_what_is_in_doubt_may_be_doubled_or_left_out(bool redo)
    {
        for (var cell = 1; cell < 31; cell++)
        {
            using var rig = Rig.OfSmallJob();
            var at = cell;
            Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= at));
            var history = History(rig.Journal);
            using var other = new OtherDevice();
            var point = Assert.IsType<ResumePoint.AfterRestart>(ResumePoint.Of(history, Job, other.Device.Status));
            var doubt = Assert.IsType<Doubt>(point.Doubt);
            var from = redo ? doubt.Redo : doubt.Skip;
            Assert.Equal(RunOutcome.Complete, GoOn(other.Port, other.Time, rig.Journal, Resumption.AfterRestart(history, Job, point, from, 9), out var run));

            var (known, start) = (CourseTests.CellsBefore(Examples.SmallJob, point.Known), CourseTests.CellsBefore(Examples.SmallJob, from));
            Assert.Equal(rig.Cells.Take(rig.Device.Gantry.Worked.Count), rig.Device.Gantry.Worked);
            Assert.True(known <= rig.Device.Gantry.Worked.Count, "The journal knew of no cell that was not worked.");
            Assert.Equal(rig.Cells.Skip(start), other.Device.Gantry.Worked);
            Assert.Equal(known + rig.Cells.Count - start, run.Worked.Counts.A + run.Worked.Counts.B);
            Assert.Equal(redo ? 0 : doubt.Cells.Count, start - known);
        }
    }

    [Fact]
    public void After_an_e_stop_the_device_itself_says_where_it_was_and_one_cell_is_in_doubt()
    {
        for (var cell = 1; cell < 31; cell += 3)
        {
            using var rig = Rig.OfSmallJob(faults: MockFaults.Parse($"estop-at={cell},estop-released-after=2"));
            Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
            rig.Line.Dispose();
            rig.Port.LetPass(TimeSpan.FromSeconds(5));
            var history = History(rig.Journal);
            var point = Assert.IsType<ResumePoint.AfterRestart>(ResumePoint.Of(history, Job, rig.Device.Status));
            Assert.Equal(cell, CourseTests.CellsBefore(Examples.SmallJob, point.Known));
            Assert.True(point.Doubt is null or { Cells.Count: 1, RecordsAfter: 0 });
            var resumed = Resumption.AfterRestart(history, Job, point, point.Known, 9);
            Assert.Equal(RunOutcome.Complete, GoOn(rig.Port, rig.Time, rig.Journal, resumed, out _));
            Assert.Equal(rig.Cells, rig.Device.Gantry.Worked);
        }
    }

    [Fact]
    public void A_run_may_be_resumed_again_and_again()
    {
        var journal = new MemoryJournal();
        var worked = new List<Position>();
        Resumption? resumed = null;
        for (var time = 0; time < 20; time++)
        {
            using var device = new OtherDevice(MockFaults.Parse("estop-at=3"));
            var outcome = GoOn(device.Port, device.Time, journal, resumed, out _);
            worked.AddRange(device.Device.Gantry.Worked);
            if (outcome == RunOutcome.Complete)
                break;
            var history = History(journal);
            using var next = new OtherDevice();
            var point = (ResumePoint.AfterRestart)ResumePoint.Of(history, Job, next.Device.Status);
            resumed = Resumption.AfterRestart(history, Job, point, point.Known, (ushort)(100 + time));
        }

        using var rig = Rig.OfSmallJob();
        Assert.Equal(rig.Cells, worked);
        var last = History(journal);
        Assert.Equal(RunOutcome.Complete, last.Outcome);
        Assert.Equal(0, last.WorkedUpTo(last.Known).CountDifferences(WorkedCells.Of(Examples.SmallJob.Image, Examples.Gantry.Grid)));
    }

    [Fact]
    public void A_complete_run_is_not_gone_on_with()
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        Assert.IsType<ResumePoint.Complete>(ResumePoint.Of(History(rig.Journal), Job, rig.Device.Status));
    }

    [Fact]
    public void Another_run_on_the_device_is_left_alone()
    {
        using var rig = Rig.OfSmallJob();
        Assert.True(Dies(rig, () => rig.Device.Gantry.CellsWorked >= 5));
        rig.Port.LetPass(TimeSpan.FromSeconds(5));
        var ours = new MemoryJournal();
        using var other = new OtherDevice(MockFaults.Parse("estop-at=3"));
        GoOn(other.Port, other.Time, ours, null, out _, Rig.Settings with { RunId = 99 });
        Assert.Equal(new ResumePoint.Busy(MachineState.Held), ResumePoint.Of(History(ours), Job, rig.Device.Status));
    }

    [Theory]
    [InlineData(JournalKind.Done, 1000)]
    [InlineData(JournalKind.Sent, 1000)]
    [InlineData(JournalKind.Restart, 1000)]
    public void A_journal_that_tells_of_what_cannot_be_is_refused(JournalKind kind, long records)
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        var entries = rig.Journal.Entries.Append(new JournalEntry(rig.Journal.Entries.Count, 0, kind) { Records = records, Cells = 0, Run = 7 });
        Assert.Throws<RefusedException>(() => RunHistory.Of(new JournalFile([.. entries], 0, null), "journal", Job));
    }

    [Fact]
    public void A_machine_file_or_a_job_that_was_changed_since_is_refused()
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        Func<JournalEntry, JournalEntry>[] changes = [begin => begin with { MachineDigest = "00" }, begin => begin with { JobDigest = "00" }];
        foreach (var change in changes)
        {
            var entries = rig.Journal.Entries.Select(entry => entry.Kind == JournalKind.Begin ? change(entry) : entry);
            Assert.Throws<RefusedException>(() => RunHistory.Of(new JournalFile([.. entries], 0, null), "journal", Job));
        }
    }

    [Fact]
    public void A_run_that_lacks_nothing_but_its_end_has_nothing_left_to_do()
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        var cutOff = rig.Journal.Entries.Where(entry => entry.Kind != JournalKind.End).ToList();
        using var fresh = new OtherDevice();
        Assert.IsType<ResumePoint.Complete>(ResumePoint.Of(RunHistory.Of(new JournalFile(cutOff, 0, null), "journal", Job), Job, fresh.Device.Status));
    }

    private static bool Dies(Rig rig, Func<bool> when)
    {
        rig.EachTurn(_ =>
        {
            if (when())
                throw new HostDiedException();
        });
        try
        {
            rig.ToEnd();
            return false;
        }
        catch (HostDiedException)
        {
            rig.Line.Dispose();
            return true;
        }
    }

    private static RunHistory History(MemoryJournal journal) => RunHistory.Of(new JournalFile(journal.Entries, 0, null), "journal", Job);

    private static RunOutcome GoOn(
        MockPort port, VirtualTime time, MemoryJournal journal, Resumption? resumed, out RunController run, RunSettings? settings = null)
    {
        journal.Written = null;
        using var line = port.Open();
        var told = settings ?? Rig.Settings;
        run = new RunController(Job, resumed is null ? told : told with { RunId = resumed.RunId, Token = 0x7777 }, journal, new Onlooker(), resumed);
        return RunLoop.RunAsync(run, line, time).GetAwaiter().GetResult().Outcome;
    }

    private sealed class HostDiedException : Exception;

    private sealed class OtherDevice : IDisposable
    {
        public OtherDevice(MockFaults? faults = null)
        {
            Device = new MockDevice(new Gantry(Examples.Gantry, seed: 2), faults);
            Port = new MockPort(Device, Time, Examples.Gantry.Baud, faults, seed: 2);
        }

        public VirtualTime Time { get; } = new();

        public MockDevice Device { get; }

        public MockPort Port { get; }

        public void Dispose() => Port.Dispose();
    }
}
