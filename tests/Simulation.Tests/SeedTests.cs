using System.Collections.Concurrent;
using System.Diagnostics;
using Bridge.Runs;
using Bridge.Wire;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>Whole runs from seeds: jobs, machines and faults of all kinds together.</summary>
public class SeedTests(ITestOutputHelper output)
{
    private const string Variable = "BRIDGE_SIMULATION";

    // So many seeds meet with all of it, or they try less than they say.
    private const int Enough = 10_000;

    private static readonly StateCause[] MustBeSeen =
    [
        StateCause.Watchdog, StateCause.EStop, StateCause.StopOctets, StateCause.EndstopHit, StateCause.ReferenceFailed, StateCause.LineSilent,
        StateCause.HostRestarted, StateCause.Operator, StateCause.OperatorWait, StateCause.JobComplete,
    ];

    /// <summary>Seeds from a first one on: BRIDGE_SIMULATION=FIRST or FIRST+COUNT.</summary>
    private static (int First, int Count, bool IsAsked) Seeds
    {
        get
        {
            var asked = Environment.GetEnvironmentVariable(Variable) ?? "";
            var parts = asked.Split('+');
            return int.TryParse(parts[0], out var first) ? (first, parts.Length > 1 ? int.Parse(parts[1]) : 1, true) : (0, Enough, false);
        }
    }

    [SimulationFact]
    public void Whatever_goes_wrong_every_cell_is_worked_once_in_order_or_named_as_in_doubt()
    {
        var (first, count, _) = Seeds;
        var (failures, attempts, watch) = (new ConcurrentDictionary<int, string>(), 0L, Stopwatch.StartNew());
        var (causes, outcomes) = (new ConcurrentDictionary<StateCause, int>(), new ConcurrentDictionary<RunOutcome, int>());
        var processor = Environment.CpuUsage.TotalTime;
        Parallel.For(first, first + count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, (seed, loop) =>
        {
            var run = RunOf(seed);
            if (run.Make() is { } what)
                failures[seed] = what;
            Interlocked.Add(ref attempts, run.Attempts);
            foreach (var cause in run.Causes)
                causes.AddOrUpdate(cause, 1, (_, before) => before + 1);
            foreach (var outcome in run.Outcomes)
                outcomes.AddOrUpdate(outcome, 1, (_, before) => before + 1);
            if (failures.Count >= 5)
                loop.Stop();
        });
        output.WriteLine($"{count} seeds from {first}, {attempts} attempts, {watch.Elapsed.TotalSeconds:0.0} s, "
            + $"{(Environment.CpuUsage.TotalTime - processor).TotalSeconds:0.0} s of the processor");
        output.WriteLine($"seeds with {Listed(causes)}; with {Listed(outcomes)}");
        Assert.True(failures.IsEmpty, string.Join("\n\n", failures.OrderBy(failure => failure.Key).Select(failure => Told(failure.Key, failure.Value))));
        if (count < Enough)
            return;
        Assert.Empty(MustBeSeen.Except(causes.Keys));
        Assert.Empty(Enum.GetValues<RunOutcome>().Except(outcomes.Keys));
    }

    /// <summary>The run of a seed.</summary>
    internal static WholeRun RunOf(int seed, Plant plant = Plant.None) => new(BoardLibrary.AsItIs, seed, WholeRun.FromSeed) { Plant = plant };

    /// <summary>A seed that failed, for a person.</summary>
    internal static string Told(int seed, string failure, Plant plant = Plant.None) =>
        Retold.Of($"Seed {seed}", failure, Variable, $"{seed}", nameof(SeedTests), RunOf(seed, plant));

    private static string Listed<T>(IEnumerable<KeyValuePair<T, int>> counts) =>
        string.Join(", ", counts.OrderBy(count => count.Key).Select(count => $"{count.Key} {count.Value}"));
}
