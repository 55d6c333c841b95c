using System.Security.Cryptography;

namespace Bridge.Runs.Tests;

public class FolderDigestsTests
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Every_file_but_the_journal_and_its_lock_has_its_digest_in_the_order_of_the_names()
    {
        using var runs = new TemporaryFolder();
        var folder = RunFolder.Create(runs.Path, "kite", Noon, [1], [2, 3]);
        Directory.CreateDirectory(folder.Pictures);
        File.WriteAllBytes(Path.Combine(folder.Pictures, "layer-000.png"), [4]);
        File.WriteAllText(folder.JournalFile, "entries");
        File.WriteAllText(folder.JournalFile + ".lock", "");
        File.WriteAllText(folder.JournalFile + ".old", "");
        var digests = FolderDigests.Of(folder);
        Assert.Equal(["job.job", "journal.jsonl.old", "machine.toml", "pictures/layer-000.png"], digests.Keys);
        Assert.Equal(Digest([1]), digests["job.job"]);
        Assert.Equal(Digest([4]), digests["pictures/layer-000.png"]);
    }

    [Fact]
    public void More_files_than_a_run_can_have_are_not_looked_at()
    {
        using var runs = new TemporaryFolder();
        var folder = RunFolder.Create(runs.Path, "kite", Noon, [1], [2]);
        for (var file = 3; file <= FolderDigests.MostFiles + 1; file++)
            File.WriteAllBytes(Path.Combine(folder.Path, $"{file}"), []);
        Assert.Contains($"more than {FolderDigests.MostFiles} files in {folder.Path}", Assert.Throws<IOException>(() => FolderDigests.Of(folder)).Message);
        File.Delete(Path.Combine(folder.Path, "3"));
        Assert.Equal(FolderDigests.MostFiles, FolderDigests.Of(folder).Count);
    }

    private static string Digest(byte[] octets) => Convert.ToHexStringLower(SHA256.HashData(octets));
}
