using System.Collections.Concurrent;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>One fault at the first, second, third ... moment of a run, or at each third, until there is no such moment any more.</summary>
public class SweepTests(ITestOutputHelper output)
{
    private static readonly Sweep[] All =
    [
        new(Trigger.JournalWrite, Strike.DieBeforeWrite), new(Trigger.JournalWrite, Strike.DieInWrite), new(Trigger.JournalWrite, Strike.DieAfterWrite),
        new(Trigger.JournalWrite, Strike.LosePowerInWrite), new(Trigger.JournalWrite, Strike.FillDisk, 2500),
        new(Trigger.JournalWrite, Strike.FillDisk, 60_000), new(Trigger.JournalWrite, Strike.DieInWrite) { IsOfResumption = true },
        new(Trigger.HostFrame, Strike.CutCable), new(Trigger.BoardFrame, Strike.CutCable),
        new(Trigger.HostFrame, Strike.LoseAll, 30) { LeavesNoTrace = true }, new(Trigger.BoardFrame, Strike.LoseAll, 30) { LeavesNoTrace = true },
        new(Trigger.HostFrame, Strike.StallLine, 100) { LeavesNoTrace = true }, new(Trigger.BoardFrame, Strike.StallHost, 100) { LeavesNoTrace = true },
        new(Trigger.BoardFrame, Strike.Misread) { LeavesNoTrace = true }, new(Trigger.Record, Strike.ResetBoard), new(Trigger.Record, Strike.KillHost),
        new(Trigger.Cell, Strike.EStop, 300), new(Trigger.Cell, Strike.CutEndstop), new(Trigger.Cell, Strike.Abort),
        new(Trigger.Cell, Strike.ResetBoard), new(Trigger.Cell, Strike.Hold), new(Trigger.Cell, Strike.Stop),
        new(Trigger.Cell, Strike.JumpClock) { LeavesNoTrace = true }, new(Trigger.Turn, Strike.Abort),
        new(Trigger.HostFrame, Strike.ResetBoard) { IsOfResumption = true }, new(Trigger.Layer, Strike.EStop, 50), new(Trigger.Layer, Strike.ResetBoard),
        new(Trigger.Layer, Strike.KillHost), new(Trigger.Layer, Strike.CutCable), new(Trigger.Layer, Strike.Stop),

        // At each third: another sweep is at every moment with the same, or with what is much alike.
        new(Trigger.BoardFrame, Strike.LoseAll, 1500) { Stride = 3 }, new(Trigger.HostFrame, Strike.StallLine, 250) { Stride = 3, First = 2 },
        new(Trigger.BoardFrame, Strike.StallHost, 700) { Stride = 3, First = 3 }, new(Trigger.HostFrame, Strike.KillHost) { Stride = 3 },
        new(Trigger.BoardFrame, Strike.KillHost) { Stride = 3, First = 2 }, new(Trigger.HostFrame, Strike.ResetBoard) { Stride = 3 },
        new(Trigger.BoardFrame, Strike.ResetBoard) { Stride = 3, First = 2 }, new(Trigger.HostFrame, Strike.EStop, 100) { Stride = 3, First = 3 },
        new(Trigger.HostFrame, Strike.CutEndstop) { Stride = 3 }, new(Trigger.HostFrame, Strike.Stop) { Stride = 3, First = 2 },
        new(Trigger.HostFrame, Strike.Abort) { Stride = 3, First = 3 }, new(Trigger.Turn, Strike.Hold) { Stride = 3 },
        new(Trigger.Turn, Strike.Stop) { Stride = 3, First = 2 }, new(Trigger.Turn, Strike.Hold) { IsOfResumption = true, Stride = 3 },
        new(Trigger.Turn, Strike.Stop) { IsOfResumption = true, Stride = 3, First = 2 },
        new(Trigger.Turn, Strike.Abort) { IsOfResumption = true, Stride = 3, First = 3 },
    ];

    public static TheoryData<string> Kinds => [.. All.Select(sweep => sweep.ToString())];

    [SimulationTheory]
    [MemberData(nameof(Kinds))]
    public void One_fault_at_every_step_leaves_the_work_whole(string kind)
    {
        Swept.MustBeOneOf(All);
        var sweep = All.Single(sweep => sweep.ToString() == kind);
        var seeds = new ConcurrentBag<Swept>();
        Parallel.ForEach(sweep.Seeds, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            if (Swept.Asked(sweep, seed) is var asked and not 0)
                seeds.Add(Swept.Of(sweep, seed, asked));
        });
        output.WriteLine($"{kind}: {seeds.Sum(seed => seed.Runs)} runs");
        Assert.True(seeds.All(seed => seed.Failures.Count == 0), string.Join("\n\n", seeds.SelectMany(seed => seed.Failures)));
    }
}
