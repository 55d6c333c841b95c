using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History.Tests;

public sealed class VerificationTests : IDisposable
{
    private readonly PastRuns _runs = new();

    public void Dispose() => _runs.Dispose();

    [Fact]
    public void A_run_that_was_left_alone_is_whole()
    {
        var found = Verification.Of(_runs.Run());
        Assert.Empty(found.Problems);
        Assert.Equal(JournalChain.Digits, found.Seal!.Length);
    }

    [Fact]
    public void One_bit_in_any_file_is_found_and_the_file_named()
    {
        var folder = _runs.Run();
        foreach (var path in Directory.GetFiles(folder.Path, "*", SearchOption.AllDirectories))
        {
            var bytes = File.ReadAllBytes(path);
            foreach (var at in new[] { 0, bytes.Length / 2, bytes.Length - 2 })
            {
                var changed = (byte[])bytes.Clone();
                changed[at] ^= 1;
                File.WriteAllBytes(path, changed);
                Assert.StartsWith(path, Verification.Of(folder).Problems[0].Place);
            }

            File.WriteAllBytes(path, bytes);
        }

        Assert.True(Verification.Of(folder).IsWhole);
    }

    [Fact]
    public void A_file_that_was_removed_or_added_is_found()
    {
        var folder = _runs.Run();
        File.WriteAllText(Path.Combine(folder.Path, "pictures", "layer-007.png"), "added");
        Assert.Contains("added", Assert.Single(Verification.Of(folder).Problems).Found);
        File.Delete(folder.EventsFile);
        Assert.Equal(["a file that was added", "no file"], Verification.Of(folder).Problems.Select(problem => problem.Found).Order());
    }

    [Fact]
    public void Entries_that_are_taken_off_the_end_are_missed()
    {
        var folder = _runs.Run();
        var lines = File.ReadAllLines(folder.JournalFile);
        for (var left = 1; left < lines.Length; left += 7)
        {
            File.WriteAllText(folder.JournalFile, string.Concat(lines.Take(left).Select(line => line + "\n")));
            Assert.Contains(Verification.Of(folder).Problems, problem => problem.Found == "no seal at its end");
        }
    }

    [Fact]
    public void A_record_that_was_made_anew_as_a_whole_has_another_seal()
    {
        var folder = _runs.Run();
        var seal = Verification.Of(folder).Seal!;
        Assert.True(Verification.Of(folder, seal.ToUpperInvariant()).IsWhole);
        var forged = JournalFile.Read(folder.JournalFile).Entries
            .Select(entry => entry.Kind == JournalKind.Begin ? entry with { Machine = "Another" } : entry)
            .ToList();
        File.Delete(folder.JournalFile);
        using (var journal = new FileJournal(folder.JournalFile))
            foreach (var entry in forged)
                Assert.True(journal.TryAppend(entry, out _));
        Assert.True(Verification.Of(folder).IsWhole);
        Assert.Equal(seal, Assert.Single(Verification.Of(folder, seal).Problems).Allowed);
    }

    [Fact]
    public void A_run_that_was_cut_off_has_no_seal_and_what_is_there_is_read()
    {
        var folder = _runs.Run();
        var bytes = File.ReadAllBytes(folder.JournalFile);
        File.WriteAllBytes(folder.JournalFile, bytes[..(bytes.Length / 2)]);
        File.Delete(folder.SummaryFile);
        var run = PastRun.Read(folder.Path);
        Assert.Equal(("cut off", null), (run.OutcomeWord, run.Summary));
        Assert.False(run.Verification.IsWhole);
        Assert.NotNull(new Replay(run).Worked);
    }

    [Fact]
    public void A_folder_without_a_journal_or_with_an_empty_one_is_refused()
    {
        var folder = _runs.Run();
        File.WriteAllText(folder.JournalFile, "");
        Assert.Throws<RefusedException>(() => PastRun.Read(folder.Path));
        File.WriteAllText(folder.JournalFile, "{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":9}\n");
        Assert.Contains("format 9", Assert.Throws<RefusedException>(() => PastRun.Read(folder.Path)).Message);
        File.Delete(folder.JournalFile);
        Assert.Throws<RefusedException>(() => PastRun.Read(folder.Path));
    }
}
