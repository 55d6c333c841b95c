using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>The time that planned orders take between their stops, against what a general routing solver finds for the same stops.</summary>
internal static class IdleTravel
{
    private const double MostAbove = 1.02;
    private const double MostOfTime = 0.1;

    /// <summary>Prints the table; true where the goal is met.</summary>
    public static bool Measure(int solverSeconds)
    {
        var isMet = true;
        Table.Print("stops of", "stops", "planned s", "s to plan", "order s", "corners s", "of best");
        foreach (var (name, machine, blocks) in Samples())
        {
            var times = new IdleTimes(machine);
            var stops = blocks.Select(block => StopChoice.Of(block, Head.A, times)).ToArray();
            var start = Stopwatch.GetTimestamp();
            var route = Route.Of(blocks, default, Head.A, comesBack: false, times, new Effort(Planner.MostStepsOfRoute)).ToList();
            var toPlan = Stopwatch.GetElapsedTime(start).TotalSeconds;

            // Once for the corners that were planned and once for any.
            StopChoice[][] planned = [.. route.Select(stop => new[] { new StopChoice(stop.Stroke, times.Of(stop.Block, stop.Stroke, Head.A)) })];
            var order = SolvedRoute.Seconds(planned, times, solverSeconds);
            var corners = SolvedRoute.Seconds(stops, times, solverSeconds);
            var seconds = Seconds(planned, times);
            var best = Math.Min(order, corners);
            isMet &= seconds <= best * MostAbove && toPlan <= solverSeconds * MostOfTime;
            Table.Print(name, $"{blocks.Count}", Table.Number(seconds), Table.Number(toPlan),
                Table.Number(order), Table.Number(corners), FormattableString.Invariant($"{seconds / best:0.0000}"));
        }
        return isMet;
    }

    // Motion between stops, and at work as far as the ways to work a stop differ.
    private static double Seconds(StopChoice[][] route, IdleTimes times)
    {
        var (at, seconds) = (default(Cell), 0.0);
        foreach (var stop in route)
        {
            seconds += times.Between(at, stop[0].Stroke.First) + stop[0].Seconds;
            at = stop[0].Stroke.Last;
        }
        return seconds;
    }

    private static IEnumerable<(string Name, Machine Machine, IReadOnlyList<Block> Blocks)> Samples()
    {
        var plotter = Examples.Machine("cardboard-plotter.toml");
        yield return ("kite", plotter, Blocks(Examples.Shape("kite.csv", plotter), plotter));
        foreach (var number in new[] { 0, 3, 5 })
        {
            var layer = new RandomLayer(number);
            yield return ($"noise {layer.Percent} %", plotter, Blocks(layer.ToShape(), plotter));
        }
        var wide = Examples.Machine("wide-plotter.toml");
        yield return ("heron", wide, Blocks(Examples.Shape("heron.png", wide), wide));
    }

    private static IReadOnlyList<Block> Blocks(Shape shape, Machine machine) =>
        Cutting.Of(Mask.Of(shape, 0, Head.A)!, machine.MayOverprint, 50_000_000).Blocks;
}
