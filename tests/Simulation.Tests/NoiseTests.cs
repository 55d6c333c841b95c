using System.Collections.Concurrent;
using Bridge.Wire;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>A line that damages a little, in one way or in all: the run is complete at its first attempt, and nobody has to do anything.</summary>
public class NoiseTests(ITestOutputHelper output)
{
    private const string Variable = "BRIDGE_NOISE";
    private const int Seeds = 40;
    private const int MostFailures = 3;

    // So little that three beats in a row, and with them the board's patience, are hardly ever lost.
    private const double Chance = 0.03;

    private static readonly Dictionary<string, Noise> All = new()
    {
        ["bits flipped"] = new Noise { Flip = Chance },
        ["bursts"] = new Noise { Burst = Chance },
        ["octets lost"] = new Noise { LostOctet = Chance },
        ["octets doubled"] = new Noise { DoubledOctet = Chance },
        ["frames lost"] = new Noise { Drop = Chance },
        ["frames doubled"] = new Noise { Double = Chance },
        ["frames once more, much later"] = new Noise { Echo = Chance },
        ["frames late, behind others"] = new Noise { Late = Chance },
        ["all of it"] = new Noise
        {
            Flip = Chance / 6, Burst = Chance / 6, LostOctet = Chance / 6, DoubledOctet = Chance / 6, Drop = Chance / 6,
            Double = Chance, Echo = Chance, Late = Chance / 6,
        },
    };

    public static TheoryData<string> Kinds => [.. All.Keys];

    [SimulationTheory]
    [MemberData(nameof(Kinds))]
    public void A_little_noise_on_the_line_leaves_no_trace(string kind)
    {
        var (failures, damages) = (new ConcurrentBag<string>(), 0);
        var asked = Environment.GetEnvironmentVariable(Variable)?.Split('/');
        Assert.True(asked is null || (asked.Length == 2 && All.ContainsKey(asked[1]) && int.Parse(asked[0]) is >= 0 and < Seeds),
            $"{Variable}: no such seed and kind.");
        Parallel.For(0, Seeds, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            if ((asked is not null && (asked[0] != $"{seed}" || asked[^1] != kind)) || failures.Count >= MostFailures)
                return;
            var run = RunOf(kind, seed);
            var failure = run.Make() ?? (run.Attempts > 1 ? "it took more than one attempt"
                : run.Causes.Overlaps([StateCause.LineSilent, StateCause.HostRestarted]) ? "somebody had to let the machine go on" : null);
            if (failure is not null)
                failures.Add(Retold.Of($"Seed {seed}, {kind}", failure, Variable, $"{seed}/{kind}", nameof(NoiseTests), RunOf(kind, seed)));
            Interlocked.Add(ref damages, run.Damages);
        });
        output.WriteLine($"{kind}: {damages} frames in {Seeds} runs");
        Assert.True(failures.IsEmpty, string.Join("\n\n", failures));
        Assert.True(damages >= Seeds || asked is not null, $"In {Seeds} runs {damages} frames met with it.");
    }

    private static WholeRun RunOf(string kind, int seed) =>
        new(BoardLibrary.AsItIs, seed, (attempt, _) => attempt == 0 ? new FaultPlan { ToBoard = All[kind], ToHost = All[kind] } : FaultPlan.None);
}
