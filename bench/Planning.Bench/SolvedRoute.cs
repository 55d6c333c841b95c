using Bridge.Planning;
using Google.OrTools.ConstraintSolver;
using Google.Protobuf.WellKnownTypes;

namespace Planning.Bench;

/// <summary>The least time past all stops, each in one of its ways, that a general routing solver finds from the corner (0, 0) on.</summary>
internal static class SolvedRoute
{
    private const double UnitsOfSecond = 1e6;
    private const long Never = 1_000_000_000_000;

    /// <summary>Seconds of the best route found; endless where none was.</summary>
    public static double Seconds(StopChoice[][] stops, IdleTimes times, int solverSeconds)
    {
        List<StopChoice> ways = [new StopChoice(default, 0), .. stops.SelectMany(stop => stop)]; // node 0 is the start; the way back costs nothing
        var manager = new RoutingIndexManager(ways.Count, 1, 0);
        var routing = new RoutingModel(manager);
        var arc = routing.RegisterTransitCallback((from, to) => Units(ways, manager.IndexToNode(from), manager.IndexToNode(to), times));
        routing.SetArcCostEvaluatorOfAllVehicles(arc);
        var node = 1;
        foreach (var stop in stops)
        {
            if (stop.Length > 1)
                routing.AddDisjunction([.. stop.Select((_, way) => manager.NodeToIndex(node + way))], Never, 1);
            node += stop.Length;
        }
        var search = operations_research_constraint_solver.DefaultRoutingSearchParameters();
        search.FirstSolutionStrategy = FirstSolutionStrategy.Types.Value.PathCheapestArc;
        search.LocalSearchMetaheuristic = LocalSearchMetaheuristic.Types.Value.GuidedLocalSearch;
        search.TimeLimit = new Duration { Seconds = solverSeconds };
        return routing.SolveWithParameters(search) is { } found ? found.ObjectiveValue() / UnitsOfSecond : double.PositiveInfinity;
    }

    private static long Units(List<StopChoice> ways, int from, int to, IdleTimes times) => to == 0
        ? 0
        : (long)Math.Round((times.Between(ways[from].Stroke.Last, ways[to].Stroke.First) + ways[to].Seconds) * UnitsOfSecond);
}
