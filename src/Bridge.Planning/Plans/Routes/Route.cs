using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// In which order and from which corners blocks are worked for the least time: nearest first, then made better by turning
/// stretches of the way round, moving stops, and choosing corners anew, from many small disturbances on.
/// </summary>
internal static class Route
{
    private const int NearStops = 10;
    private const int NearCells = 12;
    private const int MostSparse = 1500; // stops up to which those without near ones get the nearest of all as neighbours
    private const int MostDisturbances = 4000;

    /// <summary>The blocks in order, each with the way to work it.</summary>
    /// <param name="blocks">The blocks.</param>
    /// <param name="at">Where the machine stands.</param>
    /// <param name="head">The head that works them.</param>
    /// <param name="comesBack">Whether it is gone again and again, so that the way back counts too.</param>
    /// <param name="times">The machine's times.</param>
    /// <param name="effort">How much work may be done.</param>
    public static IEnumerable<(Block Block, Stroke Stroke)> Of(
        IReadOnlyList<Block> blocks, Cell at, Head head, bool comesBack, IdleTimes times, Effort effort)
    {
        if (blocks.Count == 0)
            return [];
        var stops = blocks.Select(block => StopChoice.Of(block, head, times)).ToArray();
        var index = new CornerIndex(stops);
        var (order, ways) = NearestFirst(stops, index, at);
        var route = new RouteOrder(stops, Neighbours(stops, index), order, ways, at, times, effort);
        Improve(route);
        if (comesBack)
            Close(route);
        return route.Order.Select(stop => (blocks[stop], stops[stop][route.Ways[stop]].Stroke));
    }

    private static void Improve(RouteOrder route)
    {
        route.ImproveAll();
        route.Disturb(Math.Min(MostDisturbances, 60 * route.Order.Length), new Random(route.Order.Length));
    }

    // The way back leads to where the route begins, which changes as it is made better: begun anew from there while that is shorter.
    private static void Close(RouteOrder route)
    {
        var (best, order, ways) = (double.PositiveInfinity, route.Order, route.Ways);
        for (var seconds = route.Close(); seconds < best; seconds = route.Close())
        {
            (best, order, ways) = (seconds, [.. route.Order], [.. route.Ways]);
            Improve(route);
        }

        route.Take(order, ways);
    }

    private static (int[] Order, int[] Ways) NearestFirst(StopChoice[][] stops, CornerIndex index, Cell at)
    {
        var (order, ways) = (new int[stops.Length], new int[stops.Length]);
        var left = new SortedSet<int>(Enumerable.Range(0, stops.Length));
        for (var place = 0; place < order.Length; place++)
        {
            var near = Enumerable.Range(0, NearCells)
                .Select(reach => index.Ring(at, reach).Where(left.Contains).DefaultIfEmpty(-1).Min())
                .FirstOrDefault(stop => stop >= 0, -1);
            var stop = near >= 0 ? near : left.MinBy(stop => stops[stop].Min(choice => Cells(at, choice.Stroke.First)));
            (order[place], ways[stop]) = (stop, Enumerable.Range(0, stops[stop].Length).MinBy(way => Cells(at, stops[stop][way].Stroke.First)));
            at = stops[stop][ways[stop]].Stroke.Last;
            left.Remove(stop);
        }
        return (order, ways);
    }

    private static int[][] Neighbours(StopChoice[][] stops, CornerIndex index)
    {
        var neighbours = new int[stops.Length][];
        for (var stop = 0; stop < stops.Length; stop++)
        {
            var near = new List<int>();
            for (var reach = 1; reach < NearCells && near.Count < NearStops; reach++)
                foreach (var cell in stops[stop].Select(choice => choice.Stroke.First).Distinct())
                    near.AddRange(index.Ring(cell, reach).Where(other => other != stop && !near.Contains(other)));
            if (near.Count < NearStops && stops.Length <= MostSparse)
                near.AddRange(Enumerable.Range(0, stops.Length).Where(other => other != stop && !near.Contains(other))
                    .OrderBy(other => Cells(stops[stop][0].Stroke.First, stops[other][0].Stroke.First)).Take(NearStops - near.Count));
            neighbours[stop] = [.. near.Take(NearStops)];
        }
        return neighbours;
    }

    private static int Cells(Cell from, Cell to) => Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y));
}
