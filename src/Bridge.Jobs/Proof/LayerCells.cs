using System.Collections;

namespace Bridge.Jobs;

/// <summary>A set of cells of one layer: one bit for each.</summary>
internal sealed class LayerCells(Grid grid)
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

    /// <summary>How many cells have none in the layer below within a number of cells along X and Y; and the first of them.</summary>
    public int WithoutOneBelow(LayerCells below, int within, out Cell first)
    {
        var count = 0;
        first = default;
        for (var y = 0; _any && y < grid.Y; y++)
            for (var x = 0; x < grid.X; x++)
                if (_cells[y * grid.X + x] && !below.HasNear(x, y, within) && count++ == 0)
                    first = new Cell(x, y);
        return count;
    }

    private bool HasNear(int x, int y, int within)
    {
        for (var nearY = Math.Max(0, y - within); nearY <= Math.Min(grid.Y - 1, y + within); nearY++)
            for (var nearX = Math.Max(0, x - within); nearX <= Math.Min(grid.X - 1, x + within); nearX++)
                if (_cells[nearY * grid.X + nearX])
                    return true;
        return false;
    }
}
