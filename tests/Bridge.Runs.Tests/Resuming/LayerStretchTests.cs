using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>Runs that end at a change of layer, find their zero anew, tell what was lost, and go on, against the gantry's truth.</summary>
public class LayerStretchTests
{
    private static readonly ProvedJob Job = ProvedJob.Of(Examples.SmallJob, Examples.Gantry);
    private static readonly long Change = LayerChange.Of(Job).First().Record;

    [Fact]
    public void The_changes_of_a_job_are_its_records_that_rise_each_again_unrolled() => Assert.Equal(
        [new LayerChange(2, 1, null), new LayerChange(4, 2, null), new LayerChange(6, 3, null), new LayerChange(8, 4, null)],
        LayerChange.Of(Job));

    [Fact]
    public void From_where_something_stands_in_the_heads_way_down_a_change_says_what()
    {
        var job = ProvedJob.Of(Examples.Job(Examples.Gantry,
            Record.Row(RecordWidth.Four, Head.A, new Cell(3, 7), 0, 2),
            Record.Row(RecordWidth.Four, Head.A, new Cell(3, 7), 0, 1, rise: true),
            Record.Row(RecordWidth.Four, Head.A, new Cell(1, 7), 0, 2),
            Record.Row(RecordWidth.Four, Head.A, new Cell(3, 7), 0, 1, rise: true),
            Record.End), Examples.Gantry);
        Assert.Equal([new LayerChange(1, 1, null), new LayerChange(3, 2, (new Cell(1, 7), 1))], LayerChange.Of(job));
    }

    [Fact]
    public void A_job_that_rises_at_once_has_no_change_before_its_first_record() => Assert.Empty(LayerChange.Of(ProvedJob.Of(
        Examples.Job(Examples.Plotter with { Z = Examples.Gantry.Z }, Record.Row(RecordWidth.Four, Head.A, new Cell(3, 7), 0, 2, rise: true), Record.End),
        Examples.Plotter with { Z = Examples.Gantry.Z })));

    [Fact]
    public async Task Steps_lost_in_a_layer_are_told_before_the_next_and_every_cell_is_worked_once()
    {
        using var rig = new Stretched("skip=x:5:3");
        var outcomes = await rig.ToEnd();
        Assert.Equal([.. Enumerable.Repeat(RunOutcome.LayerDone, 4), RunOutcome.Complete], outcomes);
        var told = rig.Entries.Where(entry => entry.Kind == JournalKind.Referenced).ToList();
        Assert.Equal([1, 2, 3, 4], told.Select(entry => entry.Layer));
        Assert.Equal([3, 0, 0, 0], told.Select(entry => Math.Abs(entry.Lost!.Single(axis => axis.Axis == AxisName.X).Steps)));
        var resets = rig.Entries.Where(entry => entry.Command == nameof(MachineCommand.Reset)).Skip(1); // the first is of the run's beginning
        Assert.All(told.Zip(resets), pair => Assert.InRange(pair.First.Seconds - pair.First.Took!.Value - pair.Second.Seconds, -0.002, 0.1));
        Assert.All(told, entry => Assert.InRange(entry.Took!.Value, 1, 60));
        Assert.Contains(rig.Watcher.Words, words => words.StartsWith("Before layer 1: lost steps: X off by ", StringComparison.Ordinal));
        Assert.Equal(rig.Cells, rig.Port.ByHand(device => device.Gantry.Worked));
        Assert.Equal(0, rig.Session.Controller.Worked.CountDifferences(WorkedCells.Of(Examples.SmallJob.Image, Examples.Gantry.Grid)));
        Assert.Equal((RunOutcome.Complete, 11, 11), (rig.Session.Summary!.Outcome, rig.Session.Summary.Records, rig.Session.Summary.RecordsDone));
    }

    [Fact]
    public async Task Who_watches_sees_one_run_on_one_clock()
    {
        using var rig = new Stretched();
        await rig.ToEnd();
        foreach (var clock in new[] { rig.Watcher.States, rig.Watcher.Progress }.Select(seen => seen.ConvertAll(progress => progress.Elapsed)))
            Assert.Equal(clock.Order(), clock);
        Assert.Equal(rig.Session.TookInAll, rig.Time.Now);
        Assert.True(rig.Watcher.States[^1].Elapsed > rig.Session.Took);
        Assert.Equal(rig.Session.Summary!.Seconds, rig.Time.Now.TotalSeconds, 2);
    }

    [Fact]
    public async Task The_record_of_all_stretches_is_one_chain_under_one_seal()
    {
        using var rig = new Stretched();
        await rig.ToEnd();
        rig.Session.Dispose();
        var journal = JournalFile.Read(rig.Session.Folder.JournalFile);
        Assert.Equal(rig.Session.Seal, journal.Chain.ToString());
        var begun = journal.Entries.Where(entry => entry.Kind is JournalKind.Begin or JournalKind.Restart).ToList();
        Assert.Equal([2, 4, 6, 8, null], begun.Select(entry => entry.Until));
        Assert.Equal([7, 8, 9, 10, 11], begun.Select(entry => entry.Run));
    }

    [Fact]
    public async Task Every_date_is_the_one_at_which_the_run_began_and_the_time_since()
    {
        using var rig = new Stretched();
        await rig.ToEnd();
        var dated = rig.Entries.Where(entry => entry.At is not null).ToList();
        Assert.Equal(5, dated.Count(entry => entry.Kind is JournalKind.Begin or JournalKind.Restart));
        Assert.Equal(5, dated.Count(entry => entry.Kind == JournalKind.Sealed));
        Assert.Equal(Stretched.Began, dated[0].At);
        Assert.Equal(Stretched.Began + rig.Time.Now, dated[^1].At);
        for (var stretch = 1; stretch < 5; stretch++)
            Assert.Equal(dated[2 * stretch - 1].At, dated[2 * stretch].At); // one seals, the next begins
        Assert.Equal(dated.Select(entry => entry.At).Order(), dated.Select(entry => entry.At));
    }

    [Fact]
    public async Task The_log_is_told_the_end_of_each_stretch_and_let_go_of_with_the_last()
    {
        using var rig = new Stretched();
        await rig.ToEnd();
        var file = rig.Session.Folder.EventsFile;
        Assert.Throws<IOException>(() => File.Open(file, FileMode.Open, FileAccess.ReadWrite, FileShare.None));
        rig.Session.Dispose();
        using var log = new StreamReader(File.Open(file, FileMode.Open, FileAccess.ReadWrite, FileShare.None));
        Assert.Equal(5, log.ReadToEnd().Split("\"Ended {Outcome}").Length - 1);
    }

    [Theory]
    [InlineData(MachineCommand.Stop, RunOutcome.Stopped)]
    [InlineData(MachineCommand.Abort, RunOutcome.Aborted)]
    public async Task What_is_asked_between_two_stretches_is_asked_of_the_next(MachineCommand command, RunOutcome outcome)
    {
        foreach (var isBefore in new[] { true, false })
        {
            using var rig = new Stretched();
            await rig.Session.RunAsync(rig.Line);
            var ended = rig.Session.Controller;
            if (isBefore)
                ended.Request(command);
            rig.GoOn();
            if (!isBefore)
                ended.Request(command);
            Assert.Equal(outcome, (await rig.Session.RunAsync(rig.Line)).Outcome);
            Assert.Equal(rig.Cells.Where(at => at.Layer == 0), rig.Port.ByHand(device => device.Gantry.Worked));
        }
    }

    [Fact]
    public async Task An_e_stop_between_two_stretches_ends_the_run_also_where_it_is_released_again()
    {
        using var rig = new Stretched();
        await rig.Session.RunAsync(rig.Line);
        rig.Port.ByHand(device => device.Gantry.PressEStop());
        rig.Port.LetPass(TimeSpan.FromSeconds(1));
        rig.Port.ByHand(device => device.Gantry.ReleaseEStop());
        rig.GoOn();
        var end = await rig.Session.RunAsync(rig.Line);
        Assert.Equal((RunOutcome.Aborted, MachineState.Aborted), (end.Outcome, rig.Port.ByHand(device => device.State)));
        Assert.EndsWith("2 of 11 records are done.", end.Words, StringComparison.Ordinal);
        Assert.Single(rig.Entries, entry => entry.Command == nameof(MachineCommand.Clear));
        Assert.Equal(rig.Cells.Where(at => at.Layer == 0), rig.Port.ByHand(device => device.Gantry.Worked));
        var point = ResumePoint.Of(StoppedRun.Read(rig.Session.Folder.Path).History, Job, rig.Port.ByHand(device => device.Status));
        Assert.Equal(new ResumePoint.AfterRestart(new JobPlace(Change, 0), 0, 0, null), point);
    }

    [Theory]
    [InlineData(MachineCommand.Hold)]
    [InlineData(MachineCommand.Stop)]
    [InlineData(MachineCommand.Abort)]
    public async Task What_is_asked_as_a_layer_ends_is_not_forgotten_with_it(MachineCommand command)
    {
        var outcomes = new List<RunOutcome>();
        for (var (turn, isAsked) = (0, true); isAsked; turn += 2)
        {
            using var rig = new Stretched();
            using var line = new WatchedLine(rig.Line, rig.Time);
            (isAsked, var turns) = (false, 0);
            line.EachTurn = _ =>
            {
                rig.StopAfter(TimeSpan.FromMinutes(5)); // a machine that is held waits for ever
                if (!IsNearItsEnd(rig.Session.Controller.Progress) || turns++ != turn)
                    return;
                isAsked = true;
                rig.Session.Controller.Request(command);
            };
            var end = await rig.Session.RunAsync(line);
            if (!isAsked)
                continue; // the layer had ended before
            outcomes.Add(end.Outcome);
            if (end.Outcome == RunOutcome.LayerDone)
            {
                rig.GoOn();
                await rig.Session.RunAsync(line);
            }

            Assert.All(rig.Port.ByHand(device => device.Gantry.Worked), at => Assert.Equal(0, at.Layer));
        }

        Assert.True(outcomes.Count > 3, $"It was asked in {outcomes.Count} turns.");
        Assert.All(outcomes, outcome => Assert.True(outcome != RunOutcome.Complete && (command != MachineCommand.Stop || outcome != RunOutcome.LayerDone)));

        static bool IsNearItsEnd(RunProgress at) => at is { State: MachineState.Execute, Cells: >= 14 } or { State: MachineState.Completing };
    }

    [Fact]
    public void A_layer_whose_end_the_journal_could_not_be_told_is_not_gone_on_from()
    {
        using var rig = Rig.OfSmallJob(Rig.Settings with { Until = Change });
        rig.Journal.Fails = (_, entry) => entry.State == "Completing" || rig.Journal.Failures > 0;
        Assert.Equal(RunOutcome.JournalFailed, rig.ToEnd().Outcome);
    }

    [Fact]
    public async Task A_host_that_dies_in_any_turn_is_followed_by_one_that_ends_at_the_same_change()
    {
        var (held, done) = (0, 0);
        for (var turn = 1; turn < 2000; turn += 5)
        {
            using var rig = Rig.OfSmallJob(Rig.Settings with { Until = Change });
            var last = turn;
            rig.EachTurn(_ =>
            {
                if (rig.Line.Turns > last)
                    throw new HostDiedException();
            });
            if (!Dies(rig))
                break;
            rig.Port.LetPass(TimeSpan.FromMinutes(2));
            var history = RunHistory.Of(new JournalFile(rig.Journal.Entries, 0, null), "journal", Job);
            var point = ResumePoint.Of(history, Job, rig.Device.Status);
            if (rig.Device.State == MachineState.Complete)
            {
                done++;
                Assert.Equal(new ResumePoint.AfterRestart(new JobPlace(Change, 0), Change, 0, null), point);
                continue;
            }

            if (point is not ResumePoint.OnDevice)
                continue;
            held++;
            rig.Journal.Written = null;
            var resumed = Resumption.OnDevice(history);
            var run = new RunController(Job, Rig.Settings with { Token = 0x7777 }, rig.Journal, new Onlooker(), resumed);
            using var line = rig.Port.Open();
            Assert.Equal(RunOutcome.LayerDone, (await RunLoop.RunAsync(run, line, rig.Time)).Outcome);
            Assert.Equal(rig.Cells.Where(at => at.Layer == 0), rig.Device.Gantry.Worked);
        }

        Assert.True(held > 10 && done > 0, $"{held} deaths were in the midst of the work, {done} after it.");
    }

    [Fact]
    public void A_run_that_ended_at_a_change_has_nothing_in_doubt_on_another_device()
    {
        using var rig = Rig.OfSmallJob(Rig.Settings with { Until = Change });
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.LayerDone, end.Outcome);
        Assert.Contains("finds its zero anew", end.Words);
        Assert.Contains("--resume", end.WhatToDo);
        var history = RunHistory.Of(new JournalFile(rig.Journal.Entries, 0, null), "journal", Job);
        using var other = MockPort.Of(Examples.Gantry, new VirtualTime(), seed: 1);
        var point = ResumePoint.Of(history, Job, other.ByHand(device => device.Status));
        Assert.Equal(new ResumePoint.AfterRestart(new JobPlace(Change, 0), Change, 0, null), point);
    }

    [Fact]
    public void A_journal_whose_change_lies_beyond_the_job_is_refused()
    {
        using var rig = Rig.OfSmallJob(Rig.Settings with { Until = Change });
        rig.ToEnd();
        var entries = rig.Journal.Entries.Select(entry => entry.Kind == JournalKind.Begin ? entry with { Until = 1000 } : entry).ToList();
        Assert.Throws<RefusedException>(() => RunHistory.Of(new JournalFile(entries, 0, null), "journal", Job));
    }

    private static bool Dies(Rig rig)
    {
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

    private sealed class HostDiedException : Exception;

    /// <summary>A run of the small job in a folder, which ends at each change of layer.</summary>
    private sealed class Stretched : IDisposable
    {
        public static readonly DateTimeOffset Began = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

        private readonly TemporaryFolder _runs = new();
        private readonly List<LayerChange> _changes = [.. LayerChange.Of(Job)];
        private RunSession? _stopped;

        public Stretched(string faults = "")
        {
            Port = MockPort.Of(Examples.Gantry, Time, seed: 1, faults.Length == 0 ? MockFaults.None : MockFaults.Parse(faults));
            Line = Port.Open();
            var request = new RunRequest("small.job", Examples.SmallJob.ToBytes(), "gantry.toml", Examples.MachineBytes("desktop-gantry.toml"),
                _runs.Path, Rig.Settings with { Until = _changes[0].Record });
            Session = RunSession.Create(request, Watcher, Time, Began);
            using var whole = Rig.OfSmallJob();
            Cells = whole.Cells;
        }

        public VirtualTime Time { get; } = new();

        public MockPort Port { get; }

        public ILine Line { get; }

        public Onlooker Watcher { get; } = new();

        public RunSession Session { get; private set; }

        public IReadOnlyList<Position> Cells { get; }

        public IReadOnlyList<JournalEntry> Entries => JournalFile.Read(Session.Folder.JournalFile).Entries;

        public async Task<IReadOnlyList<RunOutcome>> ToEnd()
        {
            var outcomes = new List<RunOutcome>();
            while (true)
            {
                outcomes.Add((await Session.RunAsync(Line)).Outcome);
                if (outcomes[^1] != RunOutcome.LayerDone)
                    return outcomes;
                GoOn();
            }
        }

        public void StopAfter(TimeSpan time)
        {
            if (Time.Now <= time || _stopped == Session)
                return;
            _stopped = Session;
            Session.Controller.Request(MachineCommand.Stop);
        }

        public void GoOn()
        {
            var begun = _changes.Single(change => change.Record == Session.Controller.Progress.Records);
            Session = Session.AfterLayer(begun.Layer, _changes.FirstOrDefault(change => change.Record > begun.Record)?.Record);
        }

        public void Dispose()
        {
            Session.Dispose();
            Line.Dispose();
            Port.Dispose();
            _runs.Dispose();
        }
    }
}
