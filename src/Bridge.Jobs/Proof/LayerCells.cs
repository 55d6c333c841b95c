using System.Collections;

namespace Bridge.Jobs;

/// <summary>A set of cells of one layer: one bit for each.</summary>
/// <param name="grid">The grid whose cells may be in it.</param>
public sealed class LayerCells(Grid grid)
{
    private readonly BitArray _cells = new(grid.X * grid.Y);
    private bool _any;

    /// <summary>Adds a cell of the grid; false where it was in already.</summary>
    public bool Add(Cell cell)
    {
        var at = cell.Y * grid.X + cell.X;
        if (_cells[at])
            return false;
        _any = true;
        return _cells[at] = true;
    }

    /// <summary>Takes all cells out.</summary>
    public void Clear()
    {
        if (_any)
            _cells.SetAll(false);
        _any = false;
    }

    /// <summary>All its cells, by y, then x.</summary>
    public IEnumerable<Cell> Cells()
    {
        for (var y = 0; _any && y < grid.Y; y++)
            for (var x = 0; x < grid.X; x++)
                if (_cells[y * grid.X + x])
                    yield return new Cell(x, y);
    }

    /// <summary>Whether one of its cells is within a number of cells along X and Y.</summary>
    public bool HasNear(Cell cell, int within)
    {
        for (var nearY = Math.Max(0, cell.Y - within); nearY <= Math.Min(grid.Y - 1, cell.Y + within); nearY++)
            for (var nearX = Math.Max(0, cell.X - within); nearX <= Math.Min(grid.X - 1, cell.X + within); nearX++)
                if (_cells[nearY * grid.X + nearX])
                    return true;
        return false;
    }
}
