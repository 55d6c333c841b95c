using Bridge.History;

namespace Bridge.Cli;

/// <summary>Removes the folders of runs, after a question.</summary>
internal static class RunPruning
{
    /// <summary>Removes them; a run that a program is still at is left.</summary>
    public static int Prune(Report report, IReadOnlyList<RunLine> runs, bool isYes)
    {
        if (runs.Count == 0)
            return ExitCode.Done;
        if (!isYes && !(report.IsAttended && IsAnsweredYes(report, runs.Count)))
        {
            report.Line("Nothing was removed. Answer yes, or say --yes.");
            return ExitCode.Refused;
        }

        var left = runs.Where(run => !TryRemove(report, run)).ToList();
        report.Line($"Removed: {Counted.Of(runs.Count - left.Count, "run")}.");
        return left.Count == 0 ? ExitCode.Done : ExitCode.Refused;
    }

    private static bool IsAnsweredYes(Report report, int count)
    {
        report.Line($"Remove {Counted.Of(count, "run")} with all that is known of them? There is no way back. (yes or no)");
        return Console.ReadLine()?.Trim().ToLowerInvariant() is "yes" or "y";
    }

    private static bool TryRemove(Report report, RunLine run)
    {
        try
        {
            if (File.Exists(Path.Combine(run.Path, "journal.jsonl.lock")))
                throw new IOException("a program is at this run, or was cut off in it; remove its journal.jsonl.lock if none is");
            Directory.Delete(run.Path, recursive: true);
            return true;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            report.Problem($"Left: {run.Path}: {error.Message.TrimEnd('.')}.");
            return false;
        }
    }
}
