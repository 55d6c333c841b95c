using Bridge.History;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Which runs are meant; what is null says nothing.</summary>
internal sealed record RunFilter(string? Machine, string? Ended, DateTimeOffset? After, DateTimeOffset? Before)
{
    private const string CutOff = "cutoff";

    /// <summary>How a run may have ended, in the words of the command line.</summary>
    public static IReadOnlyList<string> Ends { get; } = [.. Enum.GetNames<RunOutcome>().Select(name => name.ToLowerInvariant()), CutOff];

    /// <summary>Whether a run is meant. One whose beginning is told nowhere is before and after nothing.</summary>
    public bool Holds(RunLine run) =>
        (Machine is null || run.Machine == Machine)
        && (Ended is null || (run.Outcome?.ToString() ?? CutOff).Equals(Ended, StringComparison.OrdinalIgnoreCase))
        && (After is null || run.Began >= After) && (Before is null || run.Began < Before);
}
