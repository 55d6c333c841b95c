using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>A run that was, as its folder tells it; what cannot be read is named and left out.</summary>
public sealed class PastRun
{
    private PastRun(RunFolder folder) => Folder = folder;

    /// <summary>The folder.</summary>
    public RunFolder Folder { get; }

    /// <summary>The folder's own name.</summary>
    public string Name => Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(Folder.Path)));

    /// <summary>Whether the folder is as the run left it.</summary>
    public required Verification Verification { get; init; }

    /// <summary>The journal, up to the first thing that is wrong with it; it has an entry.</summary>
    public required JournalFile Journal { get; init; }

    /// <summary>The first entry.</summary>
    public JournalEntry Begin => Journal.Entries[0];

    /// <summary>The run's job and machine; null where they are not those that were run, or are not good.</summary>
    public ProvedJob? Job { get; private init; }

    /// <summary>The run in one page; null where its end was not reached, or the page is not good.</summary>
    public RunSummary? Summary { get; private init; }

    /// <summary>Who looked at the machine before it moved, each time that it was begun or gone on with.</summary>
    public IReadOnlyList<ChecklistRecord> Checklists { get; private init; } = [];

    /// <summary>Why something is left out, in words.</summary>
    public IReadOnlyList<string> Missing { get; private init; } = [];

    /// <summary>What was in doubt each time that it was gone on with, and how that was settled.</summary>
    public IEnumerable<SettledDoubt> Doubts => Journal.Entries.Select(entry => entry.Doubt).OfType<SettledDoubt>();

    /// <summary>Whether it was gone on with.</summary>
    public bool HasParts => Journal.Entries.Any(entry => entry.Kind is JournalKind.TakeUp or JournalKind.Restart);

    /// <summary>How it ended by its journal; null where it was cut off, or goes on.</summary>
    public RunOutcome? Outcome => Journal.Entries.LastOrDefault(entry => entry.Kind is JournalKind.End or JournalKind.TakeUp or JournalKind.Restart)
        is { Kind: JournalKind.End } end && Enum.TryParse<RunOutcome>(end.Outcome, out var outcome) ? outcome : null;

    /// <summary>How it ended, in a word.</summary>
    public string OutcomeWord => Outcome?.ToString() ?? "cut off";

    /// <summary>Reads it.</summary>
    /// <exception cref="RefusedException">It is no folder of a run, or its journal has no entry that can be read.</exception>
    public static PastRun Read(string path)
    {
        var folder = RunFolder.Open(path);
        var journal = JournalFile.Examine(InputFile.ReadAll(folder.JournalFile, JournalFile.MaxBytes), folder.JournalFile);
        if (journal.Entries.Count == 0)
            throw journal.Damage is { } damage
                ? new RefusedException([damage])
                : new RefusedException(folder.JournalFile, "no entry", "the journal of a run that has begun", "Nothing was started in it, or it was emptied.");
        var missing = new List<string>();
        return new PastRun(folder)
        {
            Verification = Verification.Of(folder, journal),
            Journal = journal,
            Job = JobOf(folder, journal.Entries[0], missing),
            Summary = SummaryOf(folder, missing),
            Checklists = ChecklistRecord.ReadAll(folder.Path),
            Missing = missing,
        };
    }

    private static ProvedJob? JobOf(RunFolder folder, JournalEntry begin, List<string> missing)
    {
        try
        {
            var job = ProvedJob.Of(JobFile.Read(folder.JobFile), MachineFile.Read(folder.MachineFile));
            if (job.JobDigest == begin.JobDigest && job.Machine.Digest.ToString() == begin.MachineDigest)
                return job;
            missing.Add("The job or the machine file in the folder is not the one that was run: pictures and times are left out.");
        }
        catch (RefusedException refused)
        {
            missing.Add($"{refused.Refusals[0].Place}: {refused.Refusals[0].Found}: pictures and times are left out.");
        }

        return null;
    }

    private static RunSummary? SummaryOf(RunFolder folder, List<string> missing)
    {
        const int MostBytes = 1 << 20;
        if (!File.Exists(folder.SummaryFile))
        {
            missing.Add("There is no summary.json: the run's end was not reached, or could not be written.");
            return null;
        }

        var summary = RunSummary.FromJson(System.Text.Encoding.UTF8.GetString(InputFile.ReadAll(folder.SummaryFile, MostBytes)));
        if (summary is not { Format: RunSummary.CurrentFormat })
            missing.Add("summary.json is damaged or of another version of this program.");
        return summary is { Format: RunSummary.CurrentFormat } ? summary : null;
    }
}
