using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Joins lone cells that touch by their corners: a row along a diagonal heading works them all with one record.</summary>
internal static class Diagonals
{
    /// <summary>The same cells in at most as many blocks.</summary>
    public static List<Block> Join(List<Block> blocks)
    {
        var lone = blocks.Where(block => block is { CellsX: 1, CellsY: 1 }).Select(block => new Cell(block.X, block.Y)).ToHashSet();
        if (lone.Count < 2)
            return blocks;
        var joined = blocks.Where(block => block is not { CellsX: 1, CellsY: 1 }).ToList();
        joined.AddRange(Chains(lone).OrderByDescending(chain => chain.CellsX).Select(chain => Taken(chain, lone)).OfType<Block>());
        joined.AddRange(lone.OrderBy(cell => cell.Y).ThenBy(cell => cell.X).Select(cell => new Block(cell.X, cell.Y, 1, 1)));
        return joined;
    }

    // Every whole diagonal of lone cells, both ways; the long ones are to be taken first.
    private static List<Block> Chains(HashSet<Cell> lone)
    {
        List<Block> chains = [];
        foreach (var cell in lone.OrderBy(cell => cell.Y).ThenBy(cell => cell.X))
        {
            if (!lone.Contains(new Cell(cell.X - 1, cell.Y - 1)) && Length(cell, 1) is > 1 and var rising)
                chains.Add(new Block(cell.X, cell.Y, rising, rising, Slant.Rises));
            if (!lone.Contains(new Cell(cell.X - 1, cell.Y + 1)) && Length(cell, -1) is > 1 and var falling)
                chains.Add(new Block(cell.X, cell.Y - falling + 1, falling, falling, Slant.Falls));
        }
        return chains;

        int Length(Cell from, int dy)
        {
            var cells = 0;
            while (lone.Contains(new Cell(from.X + cells, from.Y + cells * dy)))
                cells++;
            return cells;
        }
    }

    // A chain that another one has crossed is left to its cells.
    private static Block? Taken(Block chain, HashSet<Cell> lone)
    {
        var cells = Enumerable.Range(0, chain.CellsX)
            .Select(i => new Cell(chain.X + i, chain.Slant == Slant.Rises ? chain.Y + i : chain.Y + chain.CellsY - 1 - i))
            .ToList();
        if (!cells.All(lone.Contains))
            return null;
        lone.ExceptWith(cells);
        return chain;
    }
}
