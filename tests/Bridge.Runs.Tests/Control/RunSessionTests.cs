using System.Security.Cryptography;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class RunSessionTests
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public async Task A_run_leaves_everything_known_about_it_in_its_folder()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        RunFolder folder;
        RunEnd end;
        using (var session = RunSession.Create(Request(runs), new Onlooker(), time, Noon))
        {
            folder = session.Folder;
            end = await session.RunAsync(line);
        }

        Assert.Equal(RunOutcome.Complete, end.Outcome);
        Assert.Equal(Examples.SmallJob.ToBytes(), File.ReadAllBytes(folder.JobFile));
        Assert.Equal(Examples.MachineBytes("desktop-gantry.toml"), File.ReadAllBytes(folder.MachineFile));
        var journal = JournalFile.Read(folder.JournalFile).Entries;
        Assert.Equal((JournalKind.Begin, JournalKind.End, "Complete"), (journal[0].Kind, journal[^2].Kind, journal[^2].Outcome));
        Assert.Equal((Noon, "0.1"), (journal[0].At, journal.Single(entry => entry.Kind == JournalKind.Device).Firmware));
        var summary = RunSummary.FromJson(File.ReadAllText(folder.SummaryFile))!;
        Assert.Equal((RunOutcome.Complete, 11, 11), (summary.Outcome, summary.Records, summary.RecordsDone));
        Assert.Equal(port.ByHand(device => device.Gantry.CellsWorked), summary.WorkedByA + summary.WorkedByB);
        Assert.NotEmpty(Directory.GetFiles(folder.Pictures));
        Assert.NotEmpty(File.ReadAllText(folder.EventsFile));
    }

    [Fact]
    public async Task The_last_entry_seals_every_other_file_and_its_link_is_the_seal()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        var session = RunSession.Create(Request(runs), new Onlooker(), time, Noon);
        await session.RunAsync(line);
        session.Dispose();
        var journal = JournalFile.Read(session.Folder.JournalFile);
        Assert.Equal((JournalKind.Sealed, session.Seal), (journal.Entries[^1].Kind, journal.Chain.ToString()));
        Assert.Equal(
            Directory.GetFiles(session.Folder.Path, "*", SearchOption.AllDirectories).Where(file => file != session.Folder.JournalFile)
                .ToDictionary(file => Path.GetRelativePath(session.Folder.Path, file),
                    file => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)))),
            journal.Entries[^1].Files!.ToDictionary());
    }

    [Fact]
    public async Task A_machine_that_references_again_after_the_run_tells_the_steps_that_were_skipped()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1, MockFaults.Parse("skip=x:5:3"));
        using var line = port.Open();
        using var session = RunSession.Create(Request(runs), new Onlooker(), time, Noon);
        await session.RunAsync(line, _ =>
        {
            var device = new DeviceDialogue(line, time);
            return ReferencedAgain.FindAsync(device, new MachineHand(device, Examples.Gantry), (ushort)(Rig.Settings.Token + 1));
        });
        Assert.Equal([3, 0, 0], session.Found!.Lost.Select(axis => Math.Abs(axis.Steps)));
        var told = JournalFile.Read(session.Folder.JournalFile).Entries.Single(entry => entry.Kind == JournalKind.Referenced);
        Assert.Equal(session.Found.Lost, told.Lost);
        Assert.Equal(session.Found.Lost, RunSummary.FromJson(File.ReadAllText(session.Folder.SummaryFile))!.Lost);
        Assert.InRange(told.Took!.Value, 0.1, 60);
    }

    [Theory]
    [InlineData(MachineCommand.Hold, MachineState.Completing)]
    [InlineData(MachineCommand.Stop, MachineState.Completing)]
    [InlineData(MachineCommand.Hold, MachineState.Complete)]
    [InlineData(MachineCommand.Stop, MachineState.Complete)]
    public async Task A_machine_that_is_told_to_stand_still_as_its_job_ends_does_not_move_again(MachineCommand command, MachineState when)
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        var watcher = new Onlooker();
        using var session = RunSession.Create(Request(runs), watcher, time, Noon);
        watcher.OnState = state =>
        {
            if (state == when)
                session.Controller.Request(command);
        };
        var end = await session.RunAsync(line, _ => throw new InvalidOperationException("It moves again."));
        Assert.Equal(RunOutcome.Complete, end.Outcome);
        Assert.Contains(watcher.Words, words => words.Contains("it does not move again", StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_is_asked_after_a_run_reaches_what_moves_the_machine_then()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        using var session = RunSession.Create(Request(runs), new Onlooker(), time, Noon);
        var heard = new List<MachineCommand>();
        await session.RunAsync(line, _ =>
        {
            session.Controller.Request(MachineCommand.Stop); // before there is a hand
            session.Controller.HandOver(heard.Add);
            session.Controller.Request(MachineCommand.Hold);
            return Task.FromResult<ReferencedAgain?>(null);
        });
        Assert.Equal([MachineCommand.Stop, MachineCommand.Hold], heard);
    }

    [Fact]
    public void A_job_that_is_not_proved_leaves_no_folder()
    {
        using var runs = new TemporaryFolder();
        var bad = Examples.Job(Examples.Gantry, Record.Go(Head.A, new Cell(1, 1), rise: true), Record.Go(Head.A, new Cell(1, 1)));
        Assert.Throws<RefusedException>(() => RunSession.Create(Request(runs) with { JobBytes = bad.ToBytes() }, new Onlooker(), new VirtualTime(), Noon));
        Assert.Empty(Directory.GetFileSystemEntries(runs.Path));
    }

    [Fact]
    public async Task A_screen_that_is_gone_does_not_end_the_run()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        var watcher = new Onlooker { OnState = _ => throw new IOException("Broken pipe") };
        using var session = RunSession.Create(Request(runs), watcher, time, Noon);
        Assert.Equal(RunOutcome.Complete, (await session.RunAsync(line)).Outcome);
    }

    [Fact]
    public async Task The_summary_tells_the_run_in_one_page()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        WorkedCells? counted = null;
        using var session = RunSession.Create(Request(runs) with
        {
            CountCellsNotAsTold = worked =>
            {
                counted = worked;
                return 3;
            },
        }, new Onlooker(), time, Noon);
        Assert.Null(session.Summary);
        var end = await session.RunAsync(line);
        var summary = session.Summary!;
        Assert.Equal(summary, RunSummary.FromJson(File.ReadAllText(session.Folder.SummaryFile)));
        Assert.Equal((end.Words, end.WhatToDo, "mock", Noon), (summary.Words, summary.WhatToDo, summary.Device, summary.Began));
        Assert.Equal((Examples.Gantry.Name, Examples.Gantry.Digest.ToString()), (summary.Machine, summary.MachineDigest));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Examples.SmallJob.ToBytes())), summary.JobDigest);
        Assert.Equal(session.Controller.Worked.Counts, (summary.WorkedByA, summary.WorkedByB));
        Assert.Equal((3, session.Controller.Worked), (summary.CellsNotAsTold, counted));
        Assert.Equal(time.Now.TotalSeconds, summary.Seconds, 3);
        Assert.Equal((time.Now - session.Controller.StartedAt!.Value).TotalSeconds, summary.JobSeconds!.Value, 3);
        Assert.InRange(summary.JobSeconds.Value, summary.PredictedSeconds * 0.9, summary.PredictedSeconds * 1.1);
        Assert.Equal((session.Controller.FramesSent, session.Controller.Received.Good), (summary.FramesSent, summary.FramesReceived));
        Assert.Equal((session.Controller.RoundTrips.Count, RoundTripMs.Of(session.Controller.RoundTrips)), (summary.RoundTrips, summary.RoundTripMs));
        Assert.Equal((0, 0), (summary.Retransmissions, summary.DamagedFrames));
        Assert.Matches(@"^\d+\.\d+\.\d+$", summary.Program);
        Assert.Equal(Rig.Settings.Token, session.Token);
    }

    [Fact]
    public async Task A_run_that_is_not_complete_is_not_referenced_again_and_a_job_that_never_began_took_no_time()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        using var session = RunSession.Create(Request(runs), new Onlooker(), time, Noon);
        session.Controller.Request(Wire.MachineCommand.Stop);
        await session.RunAsync(line, _ => throw new InvalidOperationException("It is asked to move."));
        Assert.Equal((RunOutcome.Stopped, null, null), (session.Summary!.Outcome, session.Summary.JobSeconds, session.Found));
        Assert.DoesNotContain(JournalFile.Read(session.Folder.JournalFile).Entries, entry => entry.Kind == JournalKind.Referenced);
    }

    [Fact]
    public async Task Pictures_that_cannot_be_written_are_told_and_the_run_ended_as_it_did()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1);
        using var line = port.Open();
        using var session = RunSession.Create(Request(runs), new Onlooker(), time, Noon);
        File.WriteAllText(session.Folder.Pictures, "a file, not a folder");
        var end = await session.RunAsync(line);
        Assert.Equal((RunOutcome.Complete, null), (end.Outcome, session.Seal));
        Assert.Contains("The pictures or the summary could not be written (", end.Words);
        Assert.Contains("nor the record be sealed; the journal has the run", end.Words);
        Assert.StartsWith("The job was executed to its end", end.Words);
    }

    [Fact]
    public async Task A_run_that_another_program_goes_on_with_is_refused_and_one_that_nobody_has_goes_on_under_its_new_number()
    {
        using var runs = new TemporaryFolder();
        var time = new VirtualTime();
        using var port = MockPort.Of(Examples.Gantry, time, seed: 1, MockFaults.Parse("cut-at=3"));
        var line = port.Open();
        var first = RunSession.Create(Request(runs), new Onlooker(), time, Noon);
        await first.RunAsync(line);
        line.Dispose();
        var stopped = StoppedRun.Read(first.Folder.Path);
        using var other = MockPort.Of(Examples.Gantry, time, seed: 2);
        var device = new MockDevice(new Gantry(Examples.Gantry, seed: 3));
        var point = Assert.IsType<ResumePoint.AfterRestart>(ResumePoint.Of(stopped.History, stopped.Job, device.Status));
        var resumed = Resumption.AfterRestart(stopped.History, stopped.Job, point, point.Known, 99);

        var refusal = Assert.Single(Assert.Throws<RefusedException>(() =>
            RunSession.GoOn(stopped, resumed, Rig.Settings, new Onlooker(), time, Noon)).Refusals);
        Assert.Equal(first.Folder.JournalFile, refusal.Place);
        Assert.StartsWith("a journal that cannot be opened (", refusal.Found);
        Assert.Contains("may be written", refusal.Allowed);
        Assert.Contains("no other program goes on with the same run", refusal.Action);

        first.Dispose();
        using var session = RunSession.GoOn(stopped, resumed, Rig.Settings, new Onlooker(), time, Noon.AddHours(1));
        using var back = other.Open();
        Assert.Equal(RunOutcome.Complete, (await session.RunAsync(back)).Outcome);
        var restart = JournalFile.Read(first.Folder.JournalFile).Entries.Single(entry => entry.Kind == JournalKind.Restart);
        Assert.Equal((99, Noon.AddHours(1), "mock"), (restart.Run, restart.At, restart.Device));
        Assert.Null(session.Summary!.CellsNotAsTold);
        Assert.Equal((SettledDoubt.Of(point.Doubt!, point.Known), InDoubt.Redo), (restart.Doubt, restart.Doubt!.Decision));
        Assert.Equal(restart.Doubt, Assert.Single(RunSummary.FromJson(File.ReadAllText(session.Folder.SummaryFile))!.Doubts!));
        Assert.Equal(Noon, session.Summary.Began);
        Assert.Equal(first.Summary!.Seconds + session.Took.TotalSeconds, session.Summary.Seconds, 0.002);
        var since = (session.Took - session.Controller.StartedAt!.Value).TotalSeconds;
        Assert.Equal(first.Summary.JobSeconds!.Value + since, session.Summary.JobSeconds!.Value, 0.002);
    }

    [Fact]
    public void A_folder_whose_journal_has_no_entry_is_no_run_that_has_begun()
    {
        using var runs = new TemporaryFolder();
        var folder = RunFolder.Create(runs.Path, "kite", Noon, Examples.SmallJob.ToBytes(), Examples.MachineBytes("desktop-gantry.toml"));
        File.WriteAllText(folder.JournalFile, "");
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => StoppedRun.Read(folder.Path)).Refusals);
        Assert.Equal((folder.Path, "a journal without an entry", "a run that has begun"), (refusal.Place, refusal.Found, refusal.Allowed));
        Assert.Contains("from its beginning", refusal.Action);
    }

    private static RunRequest Request(TemporaryFolder runs) => new("small.job", Examples.SmallJob.ToBytes(),
        "desktop-gantry.toml", Examples.MachineBytes("desktop-gantry.toml"), runs.Path, Rig.Settings);
}
