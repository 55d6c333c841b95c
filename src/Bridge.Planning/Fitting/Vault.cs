using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// One layer of a hollow, from the layer above. A cell that is kept above must find a kept cell near below it: so a hollow begins far from
/// its walls and gets wider downwards by one cell a layer, as a vault does.
/// </summary>
internal static class Vault
{
    /// <summary>The cells to take out of a layer.</summary>
    /// <param name="inner">Those that may be.</param>
    /// <param name="above">Those taken out of the layer above.</param>
    public static CellSet Below(CellSet inner, CellSet above)
    {
        var hollow = new CellSet(inner.Width, inner.Depth);
        foreach (var island in Islands(inner))
        {
            var begun = island.Where(cell => above[cell.X, cell.Y]).ToList();
            Add(begun, hollow);
            Add(begun.Count > 0 ? Around(begun, inner) : Farthest(island, inner), hollow);
        }
        foreach (var cell in hollow.Cells().Where(cell => !above[cell.X, cell.Y]).ToList())
            if (Near(cell).All(near => hollow[near.X, near.Y]))
                hollow[cell.X, cell.Y] = false; // nothing would hold the cell above it
        return hollow;
    }

    private static void Add(IEnumerable<Cell> cells, CellSet set)
    {
        foreach (var cell in cells)
            set[cell.X, cell.Y] = true;
    }

    private static List<Cell> Around(List<Cell> begun, CellSet inner) => [.. begun.SelectMany(Near).Where(cell => inner[cell.X, cell.Y])];

    private static List<Cell> Farthest(List<Cell> island, CellSet inner)
    {
        var left = new CellSet(inner.Width, inner.Depth);
        Add(island, left);
        while (island.Where(cell => Near(cell).All(near => left[near.X, near.Y])).ToList() is { Count: > 0 } further)
        {
            left = new CellSet(inner.Width, inner.Depth);
            Add(further, left);
            island = further;
        }
        return island;
    }

    // Cells that hang together by sides or corners.
    private static IEnumerable<List<Cell>> Islands(CellSet inner)
    {
        var seen = new CellSet(inner.Width, inner.Depth);
        foreach (var first in inner.Cells())
        {
            if (seen[first.X, first.Y])
                continue;
            seen[first.X, first.Y] = true;
            List<Cell> island = [first];
            for (var next = 0; next < island.Count; next++)
                foreach (var near in Near(island[next]))
                    if (inner[near.X, near.Y] && !seen[near.X, near.Y])
                    {
                        seen[near.X, near.Y] = true;
                        island.Add(near);
                    }
            yield return island;
        }
    }

    private static IEnumerable<Cell> Near(Cell cell)
    {
        for (var y = cell.Y - 1; y <= cell.Y + 1; y++)
            for (var x = cell.X - 1; x <= cell.X + 1; x++)
                yield return new Cell(x, y);
    }
}
