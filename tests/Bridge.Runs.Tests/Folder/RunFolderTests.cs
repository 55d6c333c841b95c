using System.Collections.Concurrent;
using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class RunFolderTests
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 14, 0, 0, TimeSpan.FromHours(2));

    [Fact]
    public void A_folder_is_named_by_time_and_job_and_two_of_one_second_are_told_apart()
    {
        using var runs = new TemporaryFolder();
        var first = RunFolder.Create(runs.Path, "kite", Noon, [1], [2]);
        var second = RunFolder.Create(runs.Path, "kite", Noon, [1], [2]);
        Assert.Equal("2026-05-04T12-00-00Z-kite", Path.GetFileName(first.Path));
        Assert.Equal("2026-05-04T12-00-00Z-kite-2", Path.GetFileName(second.Path));
        Assert.Equal([1], File.ReadAllBytes(first.JobFile));
        Assert.Equal([2], File.ReadAllBytes(first.MachineFile));
    }

    [Theory]
    [InlineData("../../up", "------up")]
    [InlineData("a b/c:d", "a-b-c-d")]
    [InlineData("", "job")]
    public void A_job_name_cannot_lead_out_of_the_folder(string name, string plain)
    {
        using var runs = new TemporaryFolder();
        Assert.EndsWith($"Z-{plain}", RunFolder.Create(runs.Path, name, Noon, [], []).Path);
    }

    [Fact]
    public void A_folder_that_cannot_be_written_is_refused_before_anything_starts()
    {
        using var runs = new TemporaryFolder();
        File.WriteAllText(runs.In("taken"), "a file, not a folder");
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => RunFolder.Create(runs.In("taken"), "kite", Noon, [], [])).Refusals);
        Assert.Equal((runs.In("taken"), "a file", "a folder with room that may be written"), (refusal.Place, refusal.Found, refusal.Allowed));
        Assert.Contains("Nothing was started", refusal.Action);
    }

    [Fact]
    public void Everything_has_its_place_in_the_folder()
    {
        using var runs = new TemporaryFolder();
        var folder = RunFolder.Create(runs.Path, "kite", Noon, [1], [2]);
        Assert.Equal(["job.job", "machine.toml", "journal.jsonl", "events.clef", "summary.json", "pictures"],
            new[] { folder.JobFile, folder.MachineFile, folder.JournalFile, folder.EventsFile, folder.SummaryFile, folder.Pictures }
                .Select(path => Path.GetRelativePath(folder.Path, path)));
    }

    [Theory]
    [InlineData("job.job")]
    [InlineData("machine.toml")]
    [InlineData("journal.jsonl")]
    public void A_folder_that_lacks_what_makes_a_run_is_refused_and_what_it_lacks_is_named(string lacking)
    {
        using var runs = new TemporaryFolder();
        var folder = RunFolder.Create(runs.Path, "kite", Noon, [1], [2]);
        File.WriteAllText(folder.JournalFile, "");
        Assert.Equal(folder.JournalFile, RunFolder.Open(folder.Path).JournalFile);
        File.Delete(Path.Combine(folder.Path, lacking));
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => RunFolder.Open(folder.Path)).Refusals);
        Assert.Equal((folder.Path, $"no {lacking}"), (refusal.Place, refusal.Found));
        Assert.Contains("the folder of a run", refusal.Allowed);
        Assert.Contains("bridge run", refusal.Action);
    }

    [Fact]
    public void A_folder_for_something_else_is_named_in_the_same_way_and_empty()
    {
        using var runs = new TemporaryFolder();
        var path = RunFolder.MakeBeside(runs.In("new"), "health", Noon);
        Assert.Equal(Path.Combine(runs.In("new"), "2026-05-04T12-00-00Z-health"), path);
        Assert.Empty(Directory.GetFileSystemEntries(path));
    }

    [Fact]
    public void Runs_that_begin_at_the_same_moment_have_folders_of_their_own()
    {
        using var runs = new TemporaryFolder();
        var folders = new ConcurrentDictionary<string, byte>();
        Parallel.For(0, 64, run =>
        {
            var folder = RunFolder.Create(runs.Path, "kite", Noon, [(byte)run], []);
            Assert.True(folders.TryAdd(folder.Path, (byte)run));
        });
        Assert.All(folders, folder => Assert.Equal([folder.Value], File.ReadAllBytes(Path.Combine(folder.Key, "job.job"))));
        Assert.Equal(64, Directory.GetFileSystemEntries(runs.Path).Length);
    }

    [Fact]
    public void A_name_that_a_file_has_is_taken_too()
    {
        using var runs = new TemporaryFolder();
        File.WriteAllText(runs.In("2026-05-04T12-00-00Z-kite"), "");
        Assert.EndsWith("Z-kite-2", RunFolder.MakeBeside(runs.Path, "kite", Noon));
    }

    [Fact]
    public void A_name_keeps_its_letters_digits_hyphens_and_underlines_and_is_cut_at_forty()
    {
        using var runs = new TemporaryFolder();
        Assert.EndsWith("Z-Kite_2-b", RunFolder.MakeBeside(runs.Path, "Kite_2-b", Noon));
        Assert.EndsWith($"Z-{new string('k', 40)}", RunFolder.MakeBeside(runs.Path, new string('k', 41), Noon));
    }

    [Fact]
    public void After_999_of_one_second_the_next_is_refused_with_their_number()
    {
        using var runs = new TemporaryFolder();
        for (var count = 1; count < 1000; count++)
            Directory.CreateDirectory(runs.In($"2026-05-04T12-00-00Z-kite{(count == 1 ? "" : $"-{count}")}"));
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => RunFolder.MakeBeside(runs.Path, "kite", Noon)).Refusals);
        Assert.Equal((runs.Path, "a folder that cannot be written (1000 runs of one second are there already)", "a folder with room that may be written"),
            (refusal.Place, refusal.Found, refusal.Allowed));
        Assert.Contains("--runs", refusal.Action);
        Assert.Equal(999, Directory.GetFileSystemEntries(runs.Path).Length); // nothing is left of what could not be made
        Directory.Delete(runs.In("2026-05-04T12-00-00Z-kite-999"));
        Assert.EndsWith("Z-kite-999", RunFolder.MakeBeside(runs.Path, "kite", Noon));
    }
}
