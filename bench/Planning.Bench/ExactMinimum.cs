using Google.OrTools.Sat;

namespace Planning.Bench;

/// <summary>
/// The fewest records that work every cell of a layer once, by a general solver: a choice for each set of cells that some
/// patch or row along any of the eight headings works, each cell in exactly one chosen set.
/// </summary>
internal static class ExactMinimum
{
    private static readonly (int X, int Y)[] Diagonals = [(1, 1), (1, -1)]; // a row worked the other way round holds the same cells

    /// <summary>The fewest records, and a number that the solver proved there are no fewer than.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="seconds">The solver's time.</param>
    public static (int Records, int AtLeast) Of(RandomLayer layer, double seconds)
    {
        var model = new CpModel();
        var setsAt = new Dictionary<(int X, int Y), List<ILiteral>>();
        var chosen = new List<BoolVar>();
        foreach (var set in Sets(layer))
        {
            var isChosen = model.NewBoolVar("");
            chosen.Add(isChosen);
            foreach (var cell in set)
            {
                if (!setsAt.TryGetValue(cell, out var sets))
                    setsAt[cell] = sets = [];
                sets.Add(isChosen);
            }
        }
        foreach (var sets in setsAt.Values)
            model.AddExactlyOne(sets);
        model.Minimize(LinearExpr.Sum(chosen));
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"max_deterministic_time:{seconds},num_workers:2,linearization_level:2,random_seed:1"),
        };
        var status = solver.Solve(model);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
            throw new InvalidOperationException($"The solver found no way to work the layer: {status}.");
        return ((int)Math.Round(solver.ObjectiveValue), (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6));
    }

    private static IEnumerable<List<(int X, int Y)>> Sets(RandomLayer layer)
    {
        for (var y = 0; y < RandomLayer.Side; y++)
            for (var x = 0; x < RandomLayer.Side; x++)
            {
                foreach (var rectangle in Rectangles(layer, x, y))
                    yield return rectangle;
                foreach (var (dx, dy) in Diagonals)
                    for (var cells = 2; Enumerable.Range(0, cells).All(at => layer[x + at * dx, y + at * dy]); cells++)
                        yield return [.. Enumerable.Range(0, cells).Select(at => (x + at * dx, y + at * dy))];
            }
    }

    private static IEnumerable<List<(int X, int Y)>> Rectangles(RandomLayer layer, int x, int y)
    {
        for (var cellsX = 1; layer[x + cellsX - 1, y]; cellsX++)
            for (var cellsY = 1; Enumerable.Range(x, cellsX).All(at => layer[at, y + cellsY - 1]); cellsY++)
                yield return [.. from dy in Enumerable.Range(0, cellsY) from dx in Enumerable.Range(0, cellsX) select (x + dx, y + dy)];
    }
}
