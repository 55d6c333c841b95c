using System.Collections.Concurrent;
using Bridge.Wire;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>One fault at the first, second, third ... moment of a run, until there is no such moment any more.</summary>
public class SweepTests(ITestOutputHelper output)
{
    private const string Variable = "BRIDGE_SWEEP";
    private const int MostSteps = 5000;
    private const int MostSeeds = 1000;
    private const int DiesAtCell = 6;

    // The first of which the machine finds its zero anew at a layer.
    private static readonly int WithLayers = Enumerable.Range(3, MostSeeds).First(seed => WholeRun.JobOf(seed).LayerAfter(0) is not null);

    private static readonly Sweep[] All =
    [
        new(Trigger.JournalWrite, Strike.DieBeforeWrite), new(Trigger.JournalWrite, Strike.DieInWrite), new(Trigger.JournalWrite, Strike.DieAfterWrite),
        new(Trigger.JournalWrite, Strike.LosePowerInWrite), new(Trigger.JournalWrite, Strike.FillDisk, 2500),
        new(Trigger.JournalWrite, Strike.FillDisk, 60_000), new(Trigger.HostFrame, Strike.CutCable), new(Trigger.BoardFrame, Strike.CutCable),
        new(Trigger.HostFrame, Strike.KillHost), new(Trigger.BoardFrame, Strike.KillHost), new(Trigger.HostFrame, Strike.ResetBoard),
        new(Trigger.BoardFrame, Strike.ResetBoard), new(Trigger.HostFrame, Strike.LoseAll, 30) { LeavesNoTrace = true },
        new(Trigger.BoardFrame, Strike.LoseAll, 30) { LeavesNoTrace = true }, new(Trigger.BoardFrame, Strike.LoseAll, 1500),
        new(Trigger.HostFrame, Strike.StallLine, 100) { LeavesNoTrace = true }, new(Trigger.HostFrame, Strike.StallLine, 250),
        new(Trigger.BoardFrame, Strike.StallHost, 100) { LeavesNoTrace = true }, new(Trigger.BoardFrame, Strike.StallHost, 700),
        new(Trigger.BoardFrame, Strike.Misread) { LeavesNoTrace = true }, new(Trigger.Record, Strike.ResetBoard), new(Trigger.Record, Strike.KillHost),
        new(Trigger.Cell, Strike.EStop, 300), new(Trigger.Cell, Strike.CutEndstop), new(Trigger.Cell, Strike.Abort),
        new(Trigger.Cell, Strike.ResetBoard), new(Trigger.Cell, Strike.Hold), new(Trigger.Cell, Strike.Stop),
        new(Trigger.Cell, Strike.JumpClock) { LeavesNoTrace = true }, new(Trigger.HostFrame, Strike.EStop, 100),
        new(Trigger.HostFrame, Strike.CutEndstop), new(Trigger.HostFrame, Strike.Stop), new(Trigger.HostFrame, Strike.Abort),
        new(Trigger.Turn, Strike.Hold), new(Trigger.Turn, Strike.Stop), new(Trigger.Turn, Strike.Abort),
        new(Trigger.Turn, Strike.Hold) { IsOfResumption = true }, new(Trigger.Turn, Strike.Stop) { IsOfResumption = true },
        new(Trigger.Turn, Strike.Abort) { IsOfResumption = true }, new(Trigger.HostFrame, Strike.ResetBoard) { IsOfResumption = true },
        new(Trigger.JournalWrite, Strike.DieInWrite) { IsOfResumption = true }, new(Trigger.Layer, Strike.EStop, 50), new(Trigger.Layer, Strike.ResetBoard),
        new(Trigger.Layer, Strike.KillHost), new(Trigger.Layer, Strike.CutCable), new(Trigger.Layer, Strike.Stop),
    ];

    public static TheoryData<string> Kinds => [.. All.Select(sweep => sweep.ToString())];

    [SimulationTheory]
    [MemberData(nameof(Kinds))]
    public void One_fault_at_every_step_leaves_the_work_whole(string kind)
    {
        var sweep = All.Single(sweep => sweep.ToString() == kind);
        var (failures, runs) = (new ConcurrentBag<string>(), 0);
        Parallel.ForEach(sweep.Seeds, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            for (var at = Only(seed, kind) ?? 1; at < MostSteps && failures.Count < 3; at++)
            {
                var run = sweep.At(at, seed);
                if (run.Make() is { } failure)
                    failures.Add(Told(sweep, at, seed, failure));
                Interlocked.Increment(ref runs);
                if (!run.Struck.Contains(sweep.Attempt) || Only(seed, kind) is not null)
                    break;
                if (sweep.LeavesNoTrace && (run.Attempts > 1 || run.Causes.Contains(StateCause.LineSilent)))
                    failures.Add(Told(sweep, at, seed, "the run did not go on as if nothing had been"));
            }
        });
        output.WriteLine($"{kind}: {runs} runs");
        Assert.True(failures.IsEmpty, string.Join("\n\n", failures));
        Assert.True(runs > sweep.Seeds.Length || Environment.GetEnvironmentVariable(Variable) is not null, "The fault never struck.");
    }

    // BRIDGE_SWEEP=SEED/AT makes that step alone.
    private static int? Only(int seed, string kind) => Environment.GetEnvironmentVariable(Variable)?.Split('/') is [var asked, var at, var of] && of == kind
        ? int.Parse(asked) == seed ? int.Parse(at) : MostSteps : null;

    private static string Told(Sweep sweep, int at, int seed, string failure)
    {
        var story = new List<string>();
        sweep.At(at, seed).Make(story);
        return $"{sweep} at {at}: {failure}\n"
            + $"Again: {Variable}='{seed}/{at}/{sweep}' dotnet test tests/Simulation.Tests -c Release --filter {nameof(SweepTests)}\n"
            + string.Join('\n', story.TakeLast(40));
    }

    /// <summary>One kind of fault at each of its moments.</summary>
    private sealed record Sweep(Trigger When, Strike What, int Milliseconds = 0)
    {
        /// <summary>Whether the run completes all the same, at once, and nobody has to do anything.</summary>
        public bool LeavesNoTrace { get; init; }

        /// <summary>Whether it strikes a run that is gone on with, after its host has died, and the board is reset before the attempt after that.</summary>
        public bool IsOfResumption { get; init; }

        /// <summary>The seeds of its jobs: turns and the board's frames are many, and layers are not in every job.</summary>
        public int[] Seeds => When switch
        {
            Trigger.Turn or Trigger.Layer => [WithLayers],
            Trigger.BoardFrame => [1, 2],
            _ => [1, 2, WithLayers],
        };

        /// <summary>The attempt that it strikes, from 0.</summary>
        public int Attempt => IsOfResumption ? 1 : 0;

        public WholeRun At(int at, int seed) => new(BoardLibrary.AsItIs, seed, (attempt, _) => Of(attempt, at) is { } fault
            ? new FaultPlan { Faults = [fault] } : FaultPlan.None);

        public override string ToString() => $"{When} {What} {Milliseconds}{(IsOfResumption ? " of a resumption" : "")}";

        private Fault? Of(int attempt, int at) => (attempt - Attempt) switch
        {
            -1 => new Fault(Trigger.Cell, DiesAtCell, Strike.KillHost),
            0 => new Fault(When, at, What, Milliseconds),
            1 when IsOfResumption => new Fault(Trigger.Turn, 1, Strike.ResetBoard),
            _ => null,
        };
    }
}
