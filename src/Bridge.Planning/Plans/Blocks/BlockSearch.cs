namespace Bridge.Planning;

/// <summary>
/// Looks for a cutting into a given number of blocks: takes the cell with the fewest blocks left and tries each of them
/// (Knuth's Algorithm X, 2000), as long as what the blocks lack in worth stays within what the number leaves.
/// </summary>
internal sealed class BlockSearch
{
    private readonly BlockCandidates _candidates;
    private readonly BlockPrices _prices;
    private readonly List<Block> _blocks = []; // those that lack little enough
    private readonly List<int[]> _cellsOf = [];
    private readonly List<double> _lack = [];
    private readonly int[][] _blocksAt; // of each cell
    private readonly int[] _open; // blocks that a cell may still be in
    private readonly int[] _covered; // how many chosen blocks hold a cell
    private readonly int[] _shut; // how many reasons keep a block out
    private readonly Stack<int> _chosen = [];

    private BlockSearch(BlockCandidates candidates, BlockPrices prices, double spare)
    {
        (_candidates, _prices) = (candidates, prices);
        var near = Enumerable.Range(0, candidates.Blocks.Count)
            .Select(index => (Block: candidates.Blocks[index], Lack: prices.Lack(candidates.Blocks[index]), Amount: prices.Amounts[index]))
            .Where(block => block.Lack <= spare)
            .OrderBy(block => block.Lack - block.Amount * BlockPrices.Record / 4);
        var at = new List<int>[candidates.CellCount];
        for (var cell = 0; cell < at.Length; cell++)
            at[cell] = [];
        foreach (var (block, lack, _) in near)
        {
            var cells = candidates.NumbersOf(block);
            foreach (var cell in cells)
                at[cell].Add(_blocks.Count);
            _blocks.Add(block);
            _cellsOf.Add(cells);
            _lack.Add(lack);
        }
        _blocksAt = [.. at.Select(blocks => blocks.ToArray())];
        _open = [.. at.Select(blocks => blocks.Count)];
        _covered = new int[at.Length];
        _shut = new int[_blocks.Count];
    }

    /// <summary>A cutting into so many blocks or fewer; null where none was found within the effort.</summary>
    public static List<Block>? Find(BlockCandidates candidates, BlockPrices prices, int blocks, Effort effort)
    {
        var spare = blocks * BlockPrices.Record - prices.Cells.Sum();
        var search = new BlockSearch(candidates, prices, spare);
        return search.Go(spare, effort) ? [.. search._chosen.Select(block => search._blocks[block])] : null;
    }

    private bool Go(double spare, Effort effort)
    {
        var cell = Narrowest(effort);
        if (cell < 0)
            return true;
        List<int> tried = [];
        foreach (var block in _blocksAt[cell])
        {
            if (!effort.IsLeft)
                break;
            if (_shut[block] > 0)
                continue;
            var cost = Cost(block);
            if (cost > spare)
                continue;
            Choose(block, effort);
            if (Go(spare - cost, effort))
                return true;
            Drop(block);
            Shut(block);
            tried.Add(block);
        }
        foreach (var block in tried)
            Open(block);
        return false;
    }

    // -1 where all cells are covered.
    private int Narrowest(Effort effort)
    {
        var (narrowest, fewest) = (-1, int.MaxValue);
        for (var cell = 0; cell < _open.Length && fewest > 0; cell++)
            if (_covered[cell] == 0 && _open[cell] < fewest)
                (narrowest, fewest) = (cell, _open[cell]);
        effort.Spend(_open.Length);
        return narrowest;
    }

    private double Cost(int block)
    {
        var cost = _lack[block];
        if (_candidates.MayOverlap)
            foreach (var cell in _cellsOf[block])
                if (_covered[cell] > 0)
                    cost += _prices.Cells[cell];
        return cost;
    }

    private void Choose(int block, Effort effort)
    {
        _chosen.Push(block);
        foreach (var cell in _cellsOf[block])
        {
            if (_covered[cell]++ > 0 || _candidates.MayOverlap)
                continue;
            effort.Spend(4 * _blocksAt[cell].Length);
            foreach (var other in _blocksAt[cell])
                Shut(other);
        }
    }

    private void Drop(int block)
    {
        _chosen.Pop();
        foreach (var cell in _cellsOf[block])
            if (--_covered[cell] == 0 && !_candidates.MayOverlap)
                foreach (var other in _blocksAt[cell])
                    Open(other);
    }

    private void Shut(int block)
    {
        if (_shut[block]++ == 0)
            foreach (var cell in _cellsOf[block])
                _open[cell]--;
    }

    private void Open(int block)
    {
        if (--_shut[block] == 0)
            foreach (var cell in _cellsOf[block])
                _open[cell]++;
    }
}
