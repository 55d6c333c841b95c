using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>Whether a run's folder is as the run left it.</summary>
/// <param name="Entries">Entries of the journal that follow from one another, from the first.</param>
/// <param name="Seal">The link of the last of them, which vouches for all of the folder; null where the journal has no chain.</param>
/// <param name="Files">The digest of each file of the folder but the journal, by its name, as it is now.</param>
/// <param name="Problems">What is not as it was left, the first in the journal first; none where all is.</param>
public sealed record Verification(
    int Entries, string? Seal, IReadOnlyDictionary<string, string> Files, IReadOnlyList<Refusal> Problems)
{
    private const string LookElsewhere = "Trust no more of it than what another record says too.";

    /// <summary>Whether all is as it was left.</summary>
    public bool IsWhole => Problems.Count == 0;

    /// <summary>Holds a folder against its journal.</summary>
    /// <param name="folder">The run's folder.</param>
    /// <param name="seal">The seal as it was written down elsewhere; null where it was not.</param>
    /// <exception cref="RefusedException">A file cannot be read.</exception>
    public static Verification Of(RunFolder folder, string? seal = null) =>
        Of(folder, JournalFile.Examine(InputFile.ReadAll(folder.JournalFile, JournalFile.MaxBytes), folder.JournalFile), seal);

    /// <summary>Holds a folder against its journal, which has been read.</summary>
    /// <param name="folder">The run's folder.</param>
    /// <param name="journal">Its journal, with what is wrong with it.</param>
    /// <param name="seal">The seal as it was written down elsewhere; null where it was not.</param>
    /// <exception cref="RefusedException">A file cannot be read.</exception>
    public static Verification Of(RunFolder folder, JournalFile journal, string? seal = null)
    {
        var problems = new List<Refusal>();
        if (journal.Damage is { } damage)
            problems.Add(damage with { Action = $"{Left(journal)} {LookElsewhere}" });
        else if (journal.Chain is null)
            problems.Add(new Refusal(folder.JournalFile, "format 1, which has no chain", $"format {FileJournal.Format}",
                "It was written by an older version: its entries are numbered without gaps, and no more can be said."));
        var found = FilesOf(folder);
        if (journal.Entries is [var begin, ..])
            problems.AddRange(OfBegin(folder, begin, found));
        if (journal is { Damage: null, Chain: not null })
            problems.AddRange(OfSeal(folder, journal, found));
        if (seal is not null && !string.Equals(seal, journal.Chain?.ToString(), StringComparison.OrdinalIgnoreCase))
            problems.Add(new Refusal(folder.Path, $"a record with the seal {journal.Chain?.ToString() ?? "none"}", seal, LookElsewhere));
        return new Verification(journal.Entries.Count, journal.Chain?.ToString(), found, problems);
    }

    private static string Left(JournalFile journal) => journal.Entries.Count switch
    {
        0 => "No entry can be trusted.",
        1 => "Only the first entry is as it was written.",
        var count => $"The {count} entries before it are as they were written.",
    };

    private static IReadOnlyDictionary<string, string> FilesOf(RunFolder folder)
    {
        try
        {
            return FolderDigests.Of(folder);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(folder.Path, error.Message.TrimEnd('.'), "a folder whose files can be read", "Check its permissions.");
        }
    }

    // Job and machine file are named by the first entry, whether or not the end was reached.
    private static IEnumerable<Refusal> OfBegin(RunFolder folder, JournalEntry begin, IReadOnlyDictionary<string, string> found)
    {
        foreach (var (path, digest) in new[] { (folder.JobFile, begin.JobDigest), (folder.MachineFile, begin.MachineDigest) })
            if (found.GetValueOrDefault(Path.GetFileName(path)) is var now && now != digest)
                yield return new Refusal(path, now is null ? "no file" : "another content", $"the file that was run, with the digest {digest}", LookElsewhere);
    }

    private static IEnumerable<Refusal> OfSeal(RunFolder folder, JournalFile journal, IReadOnlyDictionary<string, string> found)
    {
        if (journal.Entries.Count == 0 || journal.Entries[^1] is not { Kind: JournalKind.Sealed, Files: { } files })
            return [new Refusal(folder.JournalFile, "no seal at its end", "an entry that seals the record",
                "The run was cut off, or goes on, or entries were taken off the end: what is there follows from one another, and no more can be said.")];
        var names = files.Keys.Union(found.Keys).Where(name => files.GetValueOrDefault(name) != found.GetValueOrDefault(name))
            .Except(["job.job", "machine.toml"]).Order(StringComparer.Ordinal);
        return names.Select(name => new Refusal(Path.Combine(folder.Path, name),
            !files.ContainsKey(name) ? "a file that was added" : found.ContainsKey(name) ? "another content" : "no file",
            files.TryGetValue(name, out var digest) ? $"the file that was sealed, with the digest {digest}" : "no file that was not there at the run's end",
            LookElsewhere));
    }
}
