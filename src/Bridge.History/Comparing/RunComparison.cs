using System.Globalization;
using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>Something in which two runs differ.</summary>
/// <param name="What">In what.</param>
/// <param name="One">What it is in the first.</param>
/// <param name="Other">What it is in the second.</param>
public sealed record RunDifference(string What, string One, string Other);

/// <summary>Two runs held against one another.</summary>
/// <param name="Differences">In what they differ, in the order of their course: the first is where they differ first.</param>
/// <param name="CellsNotTheSame">In how many cells the work differs; null where they cannot be compared.</param>
/// <param name="OneSeconds">Seconds at work for what both have done, in the first; null where the jobs are not the same.</param>
/// <param name="OtherSeconds">The same in the second.</param>
/// <param name="Test">Whether the times differ by more than noise; null where too little was done in both.</param>
public sealed record RunComparison(
    IReadOnlyList<RunDifference> Differences, long? CellsNotTheSame, double? OneSeconds, double? OtherSeconds, PairedTest? Test)
{
    /// <summary>Fewer stretches than this say nothing of noise.</summary>
    public const int LeastStretches = 5;

    private const int MostStretches = 1000;
    private const double LeastStretchSeconds = 10 * JobTimes.ResolutionSeconds;

    /// <summary>Compares them.</summary>
    public static RunComparison Of(PastRun one, PastRun other)
    {
        var differences = new List<RunDifference>();
        void Compare(string what, string? first, string? second)
        {
            if (first != second)
                differences.Add(new RunDifference(what, first ?? "not told", second ?? "not told"));
        }

        Compare("job", one.Begin.JobDigest, other.Begin.JobDigest);
        Compare("machine file", one.Begin.MachineDigest, other.Begin.MachineDigest);
        Compare("device", one.Begin.Device, other.Begin.Device);
        Compare("firmware", FirmwareOf(one), FirmwareOf(other));
        Compare("program", one.Begin.Program, other.Begin.Program);
        differences.AddRange(FirstOfCourse(StateSpan.Of(one), StateSpan.Of(other)));
        var cells = Cells(one, other, differences);
        Compare("end", one.OutcomeWord, other.OutcomeWord);
        Compare("in doubt when gone on with", DoubtsOf(one), DoubtsOf(other));
        Compare("steps lost", LostOf(one), LostOf(other));
        Compare("frames sent again", one.Summary?.Retransmissions.ToString(CultureInfo.InvariantCulture),
            other.Summary?.Retransmissions.ToString(CultureInfo.InvariantCulture));
        var isSameJob = one.Job is not null && other.Job is not null && one.Begin.JobDigest == other.Begin.JobDigest;
        if (!isSameJob || JobTimes.Of(one) is not { } first || JobTimes.Of(other) is not { } second)
            return new RunComparison(differences, cells, null, null, null);
        var done = Math.Min(first.Done, second.Done);
        var stretches = Stretches(first, done)
            .Select(stretch => second.Measured(stretch.First, stretch.Count) - first.Measured(stretch.First, stretch.Count))
            .ToList();
        return new RunComparison(differences, cells, first.Measured(0, done), second.Measured(0, done),
            stretches.Count < LeastStretches ? null : PairedTest.Of(stretches));
    }

    // Stretches much longer than the journal's interval: what one ends late the next begins late, so single records would say less.
    private static IEnumerable<(int First, int Count)> Stretches(JobTimes times, int done)
    {
        var least = Math.Max(LeastStretchSeconds, times.Predicted(0, done) / MostStretches);
        var first = 0;
        for (var record = 0; record < done; record++)
            if (times.Predicted(first, record + 1 - first) >= least)
            {
                yield return (first, record + 1 - first);
                first = record + 1;
            }
    }

    private static IEnumerable<RunDifference> FirstOfCourse(IReadOnlyList<StateSpan> one, IReadOnlyList<StateSpan> other)
    {
        for (var index = 0; index < Math.Max(one.Count, other.Count); index++)
        {
            var (first, second) = (one.ElementAtOrDefault(index), other.ElementAtOrDefault(index));
            if (first?.State == second?.State && first?.Cause == second?.Cause)
                continue;
            yield return new RunDifference($"course, from change of state {index + 1} on", Told(first), Told(second));
            yield break;
        }
    }

    private static string Told(StateSpan? span) => span is null ? "over" : $"{Words.Of(span)} at {Words.Clock(span.Begins)}, {Words.Place(span.Place)} done";

    private static long? Cells(PastRun one, PastRun other, List<RunDifference> differences)
    {
        if (WorkedOf(one) is not { } first || WorkedOf(other) is not { } second || first.Grid != second.Grid)
            return null;
        var count = first.CountDifferences(second);
        if (count > 0 && FirstCell(first, second) is var (cell, layer))
            differences.Add(new RunDifference($"work, {Words.Count(count, "cell")}, the first at {cell} on layer {layer}",
                HeadsAt(first, cell, layer), HeadsAt(second, cell, layer)));
        return count;
    }

    private static WorkedCells? WorkedOf(PastRun run)
    {
        var replay = new Replay(run);
        replay.GoTo(double.MaxValue);
        return replay.Worked;
    }

    private static (Cell Cell, int Layer)? FirstCell(WorkedCells one, WorkedCells other)
    {
        foreach (var layer in one.Layers.Union(other.Layers).Order())
            for (var y = 0; y < one.Grid.Y; y++)
                for (var x = 0; x < one.Grid.X; x++)
                    if (!one.IsSame(other, new Cell(x, y), layer))
                        return (new Cell(x, y), layer);
        return null;
    }

    private static string HeadsAt(WorkedCells worked, Cell cell, int layer) => (worked.Has(cell, layer, Head.A), worked.Has(cell, layer, Head.B)) switch
    {
        (true, true) => "worked by both heads",
        (true, false) => "worked by head a",
        (false, true) => "worked by head b",
        _ => "not worked",
    };

    private static string? FirmwareOf(PastRun run) => run.Journal.Entries.LastOrDefault(entry => entry.Kind == JournalKind.Device)?.Firmware;

    private static string DoubtsOf(PastRun run) => run.Doubts.Count() is > 0 and var doubts
        ? $"{Words.Count(doubts, "time")}, last: {SettledDoubtWords.Of(run.Doubts.Last())}" : "nothing";

    private static string? LostOf(PastRun run) => References.Of(run) is { Count: > 0 } references
        ? string.Join(", ", References.Sum(references).Select(axis => $"{axis.Axis} {axis.Steps}")) : null;
}
