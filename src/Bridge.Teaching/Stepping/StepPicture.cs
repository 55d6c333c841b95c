using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>What was worked on one layer so far, cell by cell.</summary>
public sealed class StepPicture
{
    private readonly Grid _grid;
    private readonly byte[] _cells;

    internal StepPicture(Grid grid, int layer)
        : this(grid, layer, new byte[grid.X * grid.Y])
    {
    }

    private StepPicture(Grid grid, int layer, byte[] cells) => (_grid, Layer, _cells) = (grid, layer, cells);

    /// <summary>The layer.</summary>
    public int Layer { get; }

    /// <summary>Whether a head worked a cell of the grid.</summary>
    public bool Has(Cell cell, Head head) => (_cells[cell.Y * _grid.X + cell.X] & 1 << (int)head) != 0;

    internal void Add(Cell cell, Head head) => _cells[cell.Y * _grid.X + cell.X] |= (byte)(1 << (int)head);

    internal StepPicture Copy() => new(_grid, Layer, [.. _cells]);
}
