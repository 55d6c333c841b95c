using System.Security.Cryptography;
using Bridge.Jobs;
using Bridge.Mock;

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

    private static RunRequest Request(TemporaryFolder runs) => new("small.job", Examples.SmallJob.ToBytes(),
        "desktop-gantry.toml", Examples.MachineBytes("desktop-gantry.toml"), runs.Path, Rig.Settings);
}
