using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>A run in a line of a list: what its first and last entries and its summary tell, without reading all of it.</summary>
/// <param name="Path">Its folder.</param>
/// <param name="Machine">The machine's name.</param>
/// <param name="Device">What executed it.</param>
/// <param name="Began">When it began; null where that is told nowhere.</param>
/// <param name="Outcome">How it ended; null where it was cut off, or goes on.</param>
/// <param name="Records">Records of the whole run.</param>
/// <param name="RecordsDone">Records that were done; null where its end was not reached.</param>
/// <param name="JobSeconds">Seconds from the job's start to the end, holds included; null where it did not start or its end was not reached.</param>
/// <param name="PredictedSeconds">Seconds that were predicted; null where its end was not reached.</param>
/// <param name="Doubts">How many times something was in doubt when it was gone on with, at most 100; null where its end was not reached.</param>
/// <param name="Bytes">Bytes of its folder.</param>
public sealed record RunLine(
    string Path, string Machine, string Device, DateTimeOffset? Began, RunOutcome? Outcome,
    long? Records, long? RecordsDone, double? JobSeconds, double? PredictedSeconds, int? Doubts, long Bytes)
{
    /// <summary>The most runs of a folder that are listed: 10 000.</summary>
    public const int Most = 10_000;

    private const int HeadBytes = 1 << 16;
    private const int TailBytes = 1 << 20;

    /// <summary>The folder's own name.</summary>
    public string Name => System.IO.Path.GetFileName(Path);

    /// <summary>How it ended, in a word.</summary>
    public string OutcomeWord => Outcome?.ToString() ?? "cut off";

    /// <summary>The runs of a folder, the oldest first, and in words what in it looks like a run and cannot be read. What is no run is passed over.</summary>
    /// <exception cref="RefusedException">There is no such folder, or it cannot be read.</exception>
    public static (IReadOnlyList<RunLine> Runs, IReadOnlyList<string> Unreadable) ReadAll(string runs)
    {
        try
        {
            if (!Directory.Exists(runs))
                throw new RefusedException(runs, "no such folder", "a folder of runs, as bridge run makes it", "Check the name; --runs names another one.");
            var (lines, unreadable) = (new List<RunLine>(), new List<string>());
            foreach (var path in Directory.EnumerateDirectories(runs).Order(StringComparer.Ordinal).Take(Most))
                if (File.Exists(System.IO.Path.Combine(path, "journal.jsonl")))
                    Add(path, lines, unreadable);
            return (lines, unreadable);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(runs, error.Message.TrimEnd('.'), "a folder that can be read", "Check its permissions.");
        }
    }

    private static void Add(string path, List<RunLine> lines, List<string> unreadable)
    {
        try
        {
            lines.Add(Read(path));
        }
        catch (Exception error) when (error is RefusedException or IOException or UnauthorizedAccessException)
        {
            unreadable.Add($"{path}: {(error as RefusedException)?.Refusals[0].Found ?? error.Message}");
        }
    }

    private static RunLine Read(string path)
    {
        var folder = RunFolder.Open(path);
        var (head, tail) = EndsOf(folder.JournalFile);
        var line = head.AsMemory(0, Array.IndexOf(head, (byte)'\n') + 1);
        var first = JournalFile.Parse(line, folder.JournalFile).Entries;
        if (first is not [var begin])
            throw new RefusedException(folder.JournalFile, "no entry", "the journal of a run that has begun", "Nothing was started in it, or it was emptied.");
        var summary = SummaryOf(folder);
        return new RunLine(folder.Path, begin.Machine ?? "", begin.Device ?? "", begin.At ?? summary?.Began, OutcomeOf(tail), begin.Records,
            summary?.RecordsDone, summary?.JobSeconds, summary?.PredictedSeconds, summary is null ? null : summary.Doubts?.Count ?? 0,
            new DirectoryInfo(path).EnumerateFiles("*", SearchOption.AllDirectories).Take(FolderDigests.MostFiles).Sum(file => file.Length));
    }

    private static RunSummary? SummaryOf(RunFolder folder) => new FileInfo(folder.SummaryFile) is { Exists: true, Length: < TailBytes }
        ? RunSummary.FromJson(File.ReadAllText(folder.SummaryFile)) : null;

    private static (byte[] Head, byte[] Tail) EndsOf(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var head = new byte[Math.Min(file.Length, HeadBytes)];
        file.ReadExactly(head);
        var tail = new byte[Math.Min(file.Length, TailBytes)];
        file.Position = file.Length - tail.Length;
        file.ReadExactly(tail);
        return (head, tail);
    }

    // From the end backwards: what ends the run, or what goes on with it.
    private static RunOutcome? OutcomeOf(ReadOnlySpan<byte> tail)
    {
        for (var end = tail.LastIndexOf((byte)'\n'); end > 0;)
        {
            var begin = tail[..end].LastIndexOf((byte)'\n') + 1;
            if (JournalFile.TryReadEntry(tail[begin..end]) is not { } entry)
                return null;
            if (entry.Kind == JournalKind.End)
                return Enum.TryParse<RunOutcome>(entry.Outcome, out var outcome) ? outcome : null;
            if (entry.Kind is not (JournalKind.Sealed or JournalKind.Referenced))
                return null;
            end = begin - 1;
        }

        return null;
    }
}
