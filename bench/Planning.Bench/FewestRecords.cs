using System.Diagnostics;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>Records of planned layers against the fewest there can be.</summary>
internal static class FewestRecords
{
    private const double EqualShare = 0.95;

    /// <summary>Prints a line for each layer, by its number, and a table; true where the goal is met.</summary>
    /// <param name="first">The number of the first layer.</param>
    /// <param name="layers">How many layers.</param>
    /// <param name="solverSeconds">For each layer, of the solver's own deterministic time, which other work on the machine does not stretch.</param>
    public static bool Measure(int first, int layers, int solverSeconds)
    {
        var machine = Examples.Machine("desktop-gantry.toml");
        var results = new List<Result>();
        for (var number = first; number < first + layers; number++)
        {
            var layer = new RandomLayer(number);
            var start = Stopwatch.GetTimestamp();
            var planned = Planner.Plan(layer.ToShape(), machine).Layers[0];
            var plannedSeconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
            start = Stopwatch.GetTimestamp();
            var (records, atLeast) = ExactMinimum.Of(layer, solverSeconds);
            results.Add(new Result(layer.Percent, planned, records, atLeast, plannedSeconds, Stopwatch.GetElapsedTime(start).TotalSeconds));
            Console.Error.WriteLine(FormattableString.Invariant(
                $"layer {number} fill {layer.Percent}: planned {planned.Records}, bound {planned.AtLeast}, solver {records}, proved {atLeast}"));
        }
        Table.Print("fill", "layers", "equal", "1 above", "more", "open", "own proof", "rectangles", "records", "s/layer", "solver s");
        foreach (var fill in results.GroupBy(result => result.Percent).OrderBy(fill => fill.Key))
            Print($"{fill.Key} %", [.. fill]);
        Print("all", results);
        return results.Count(result => result.Above <= 0) >= EqualShare * results.Count && results.TrueForAll(result => result.Above <= 1);
    }

    private static void Print(string fill, List<Result> results) => Table.Print(
        fill,
        $"{results.Count}",
        $"{results.Count(result => result.Above <= 0)}",
        $"{results.Count(result => result.Above == 1)}",
        $"{results.Count(result => result.Above > 1)}",
        $"{results.Count(result => result.IsOpen)}",
        $"{results.Count(result => result.Planned.Records == result.Planned.AtLeast)}",
        $"{results.Sum(result => result.Planned.Rectangles)}",
        $"{results.Sum(result => result.Planned.Records)}",
        Table.Number(results.Average(result => result.PlannedSeconds)),
        Table.Number(results.Average(result => result.SolvedSeconds)));

    // Solved is the fewest the solver found, AtLeast what it proved that there are no fewer than.
    private sealed record Result(int Percent, LayerCost Planned, int Solved, int AtLeast, double PlannedSeconds, double SolvedSeconds)
    {
        public int Above => Planned.Records - Solved;

        public bool IsOpen => Math.Min(Solved, Planned.Records) > Math.Max(AtLeast, Planned.AtLeast);
    }
}
