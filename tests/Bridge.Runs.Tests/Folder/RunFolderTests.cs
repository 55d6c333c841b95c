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
        var refused = Assert.Throws<RefusedException>(() => RunFolder.Create(runs.In("taken"), "kite", Noon, [], []));
        Assert.Contains("Nothing was started", refused.Message);
    }
}
