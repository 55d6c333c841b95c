namespace Bridge.Planning;

/// <summary>What the cells of a mask are worth, summed so that the worth of a block takes two or four look-ups.</summary>
internal sealed class PriceTable
{
    private readonly BlockCandidates _candidates;
    private readonly int _stride;
    private readonly double[] _area; // of all cells left of and below a point
    private readonly double[] _rises; // of all cells on the diagonal down left of a point
    private readonly double[] _falls; // of all cells on the diagonal down right of a point

    /// <summary>All prices 0.</summary>
    public PriceTable(BlockCandidates candidates)
    {
        _candidates = candidates;
        _stride = candidates.Mask.Width + 1;
        var points = _stride * (candidates.Mask.Depth + 1);
        (_area, _rises, _falls) = (new double[points], new double[points], new double[points]);
    }

    /// <summary>Takes new prices, by the number of the cell.</summary>
    public void Set(ReadOnlySpan<double> prices)
    {
        var mask = _candidates.Mask;
        for (var y = 0; y < mask.Depth; y++)
        {
            var row = 0.0;
            for (var x = 0; x < mask.Width; x++)
            {
                var number = _candidates.NumberOf(x, y);
                var price = number < 0 ? 0 : prices[number];
                row += price;
                var point = y * _stride + x;
                _area[point + _stride + 1] = _area[point + 1] + row;
                _rises[point + _stride + 1] = _rises[point] + price;
                _falls[point + _stride] = _falls[point + 1] + price;
            }
        }
    }

    /// <summary>The worth of a block.</summary>
    public double Of(in Block block)
    {
        int low = block.Y * _stride + block.X, high = low + block.CellsY * _stride;
        return block.Slant switch
        {
            Slant.Rises => _rises[high + block.CellsX] - _rises[low],
            Slant.Falls => _falls[high] - _falls[low + block.CellsX],
            _ => _area[high + block.CellsX] - _area[high] - _area[low + block.CellsX] + _area[low],
        };
    }
}
