using System.Diagnostics;
using System.Numerics;
using System.Runtime.InteropServices;

namespace Bridge.Planning;

/// <summary>
/// Prices of cells such that no block is worth more than one record. Their sum is then a number that no cutting can go below
/// (the duality of linear programs), and a block worth much less than one record is in no cutting that comes near to it.
/// Found by the revised simplex method (Dantzig 1953) from single cells as the first basis. The right sides are moved a
/// little so that every step makes way (Charnes 1952); the prices hold whatever the right sides are.
/// </summary>
internal sealed class BlockPrices
{
    /// <summary>The worth of one record: prices are whole numbers of this part, so that sums are exact.</summary>
    public const double Record = 1 << 30;

    private const double Least = 1e-9;

    private readonly BlockCandidates _candidates;
    private readonly int _cells;
    private readonly PriceTable _table;
    private readonly double[] _prices;
    private readonly double[][] _inverse; // of the basis, column by column
    private readonly double[] _amount; // of each basic block
    private readonly int[] _basic; // the block of each row; -1 a surplus
    private readonly double[] _column;

    private BlockPrices(BlockCandidates candidates)
    {
        _candidates = candidates;
        _cells = candidates.CellCount;
        _table = new PriceTable(candidates);
        _prices = Enumerable.Repeat(1.0, _cells).ToArray();
        _inverse = new double[_cells][];
        _amount = new double[_cells];
        _basic = new int[_cells];
        _column = new double[_cells];
        var random = new Random(1);
        for (var cell = 0; cell < _cells; cell++)
        {
            _inverse[cell] = new double[_cells];
            _inverse[cell][cell] = 1;
            _amount[cell] = 1 + 1e-4 * (1 + random.NextDouble());
        }
        Amounts = new double[candidates.Blocks.Count];
    }

    /// <summary>Prices in parts of <see cref="Record"/>, whole numbers.</summary>
    public double[] Cells => _prices;

    /// <summary>How much of each block the best cutting into parts of blocks takes, 0 to 1: a hint.</summary>
    public double[] Amounts { get; }

    /// <summary>No cutting has fewer blocks.</summary>
    public int AtLeast => (int)Math.Ceiling(_prices.Sum() / Record);

    /// <summary>Finds the prices, within an effort.</summary>
    public static BlockPrices Of(BlockCandidates candidates, Effort effort)
    {
        var prices = new BlockPrices(candidates);
        prices.StartFromSingleCells();
        while (effort.IsLeft && prices.Step(effort))
        {
        }
        prices.Settle();
        return prices;
    }

    /// <summary>How much less than one record a block is worth, in parts of <see cref="Record"/>, 0 and up.</summary>
    public double Lack(Block block) => Record - _table.Of(block);

    private void StartFromSingleCells()
    {
        for (var index = 0; index < _candidates.Blocks.Count; index++)
            if (_candidates.Blocks[index] is { CellsX: 1, CellsY: 1 } single)
                _basic[_candidates.NumberOf(single.X, single.Y)] = index;
    }

    private bool Step(Effort effort)
    {
        _table.Set(_prices);
        var (entering, cost) = (-1, -Least);
        var blocks = CollectionsMarshal.AsSpan(_candidates.Blocks);
        for (var index = 0; index < blocks.Length; index++)
            if (1 - _table.Of(blocks[index]) is var lack && lack < cost)
                (entering, cost) = (index, lack);
        var surplus = _candidates.MayOverlap ? Cheapest(cost) : -1;
        effort.Spend(blocks.Length + 4 * _cells);
        if (entering < 0 && surplus < 0)
            return false;

        Array.Clear(_column);
        if (surplus >= 0)
            Add(_inverse[surplus], -1, _column);
        else
            foreach (var cell in _candidates.NumbersOf(blocks[entering]))
                Add(_inverse[cell], 1, _column);
        var leaving = Leaving();
        if (leaving < 0)
            return false;
        Pivot(leaving, surplus >= 0 ? -1 : entering, surplus >= 0 ? _prices[surplus] : cost, effort);
        return true;
    }

    private int Cheapest(double cost)
    {
        var cheapest = -1;
        for (var cell = 0; cell < _cells; cell++)
            if (_prices[cell] < cost)
                (cheapest, cost) = (cell, _prices[cell]);
        return cheapest;
    }

    private int Leaving()
    {
        var (leaving, least) = (-1, double.PositiveInfinity);
        for (var row = 0; row < _cells; row++)
            if (_column[row] > 1e-7 && _amount[row] / _column[row] < least)
                (leaving, least) = (row, _amount[row] / _column[row]);
        return leaving;
    }

    private void Pivot(int row, int entering, double cost, Effort effort)
    {
        var pivot = _column[row];
        var amount = _amount[row] / pivot;
        Add(_column, -amount, _amount);
        _amount[row] = amount;
        _basic[row] = entering;
        var changed = 0;
        for (var cell = 0; cell < _cells; cell++)
        {
            var inverse = _inverse[cell];
            var part = inverse[row] / pivot;
            if (part == 0)
                continue;
            changed++;
            Add(_column, -part, inverse);
            inverse[row] = part;
            _prices[cell] += cost * part;
        }
        effort.Spend(changed * _cells / 4);
    }

    // Whole numbers, lowered until no block is worth more than a record by any rounding.
    private void Settle()
    {
        for (var row = 0; row < _cells; row++)
            if (_basic[row] >= 0)
                Amounts[_basic[row]] = _amount[row];
        if (_candidates.MayOverlap)
            for (var cell = 0; cell < _cells; cell++)
                _prices[cell] = Math.Max(0, _prices[cell]);
        _table.Set(_prices);
        var most = 1.0;
        foreach (var block in _candidates.Blocks)
            most = Math.Max(most, _table.Of(block));
        for (var cell = 0; cell < _cells; cell++)
            _prices[cell] = Math.Floor(_prices[cell] / (most * (1 + Least)) * Record);
        _table.Set(_prices);
        Debug.Assert(_candidates.Blocks.TrueForAll(block => Lack(block) >= 0), "No block is worth more than one record.");
    }

    private static void Add(double[] from, double times, double[] to)
    {
        var wideFrom = MemoryMarshal.Cast<double, Vector<double>>(from.AsSpan());
        var wideTo = MemoryMarshal.Cast<double, Vector<double>>(to.AsSpan());
        for (var wide = 0; wide < wideTo.Length; wide++)
            wideTo[wide] += wideFrom[wide] * times;
        for (var at = wideTo.Length * Vector<double>.Count; at < to.Length; at++)
            to[at] += from[at] * times;
    }
}
