using System.Collections.Concurrent;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>One fault at the first, second, third ... moment of a run, until there is no such moment any more.</summary>
public class SweepTests(ITestOutputHelper output)
{
    private const string Variable = "BRIDGE_SWEEP";
    private const int MostSteps = 5000;
    private const int MostSeeds = 1000;

    // Two of them as they come, and the first of which the machine finds its zero anew at a layer.
    private static readonly int[] Seeds =
        [1, 2, Enumerable.Range(3, MostSeeds).First(seed => WholeRun.JobOf(seed).LayerAfter(0) is not null)];

    private static readonly (Trigger When, Strike What, int Milliseconds)[] AllKinds =
    [
        (Trigger.JournalWrite, Strike.DieBeforeWrite, 0), (Trigger.JournalWrite, Strike.DieInWrite, 0), (Trigger.JournalWrite, Strike.DieAfterWrite, 0),
        (Trigger.JournalWrite, Strike.LosePowerInWrite, 0), (Trigger.JournalWrite, Strike.FillDisk, 2500), (Trigger.JournalWrite, Strike.FillDisk, 60_000),
        (Trigger.HostFrame, Strike.CutCable, 0), (Trigger.BoardFrame, Strike.CutCable, 0), (Trigger.HostFrame, Strike.KillHost, 0),
        (Trigger.BoardFrame, Strike.KillHost, 0), (Trigger.HostFrame, Strike.ResetBoard, 0), (Trigger.BoardFrame, Strike.ResetBoard, 0),
        (Trigger.HostFrame, Strike.LoseAll, 30), (Trigger.BoardFrame, Strike.LoseAll, 30), (Trigger.BoardFrame, Strike.LoseAll, 1500),
        (Trigger.HostFrame, Strike.StallLine, 250), (Trigger.BoardFrame, Strike.StallHost, 700), (Trigger.BoardFrame, Strike.Misread, 0),
        (Trigger.Record, Strike.ResetBoard, 0), (Trigger.Record, Strike.KillHost, 0), (Trigger.Cell, Strike.EStop, 300), (Trigger.Cell, Strike.Abort, 0),
        (Trigger.Cell, Strike.ResetBoard, 0), (Trigger.Cell, Strike.Hold, 0), (Trigger.Cell, Strike.Stop, 0), (Trigger.Cell, Strike.JumpClock, 0),
        (Trigger.HostFrame, Strike.EStop, 100), (Trigger.HostFrame, Strike.Stop, 0), (Trigger.HostFrame, Strike.Abort, 0),
        (Trigger.Turn, Strike.Hold, 0), (Trigger.Turn, Strike.Stop, 0), (Trigger.Turn, Strike.Abort, 0), (Trigger.Turn, Strike.KillHost, 0),
    ];

    private static readonly string[] Names = [.. AllKinds.Select(kind => $"{kind.When} {kind.What} {kind.Milliseconds}")];

    public static TheoryData<string> Kinds => [.. Names];

    [SimulationTheory]
    [MemberData(nameof(Kinds))]
    public void One_fault_at_every_step_leaves_the_work_whole(string kind)
    {
        var (when, what, milliseconds) = AllKinds[Array.IndexOf(Names, kind)];
        var (failures, runs) = (new ConcurrentBag<string>(), 0);
        Parallel.ForEach(Seeds, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            for (var at = Only(seed, kind) ?? 1; at < MostSteps && failures.Count < 3; at++)
            {
                var run = Of(seed, new Fault(when, at, what, milliseconds));
                if (run.Make() is { } failure)
                    failures.Add(Told(seed, new Fault(when, at, what, milliseconds), kind, failure));
                Interlocked.Increment(ref runs);
                if (!run.FirstStruck || Only(seed, kind) is not null)
                    break;
            }
        });
        output.WriteLine($"{kind}: {runs} runs");
        Assert.True(failures.IsEmpty, string.Join("\n\n", failures));
        Assert.True(runs > Seeds.Length || Environment.GetEnvironmentVariable(Variable) is not null, "The fault never struck.");
    }

    private static WholeRun Of(int seed, Fault fault) =>
        new(BoardLibrary.AsItIs, seed, (attempt, _) => attempt == 0 ? new FaultPlan { Faults = [fault] } : FaultPlan.None);

    // BRIDGE_SWEEP=SEED/AT makes that step alone.
    private static int? Only(int seed, string kind) => Environment.GetEnvironmentVariable(Variable)?.Split('/') is [var asked, var at, var of] && of == kind
        ? int.Parse(asked) == seed ? int.Parse(at) : MostSteps : null;

    private static string Told(int seed, Fault fault, string kind, string failure)
    {
        var story = new List<string>();
        Of(seed, fault).Make(story);
        return $"{fault}: {failure}\nAgain: {Variable}='{seed}/{fault.At}/{kind}' dotnet test tests/Simulation.Tests -c Release --filter {nameof(SweepTests)}\n"
            + string.Join('\n', story.TakeLast(40));
    }
}
