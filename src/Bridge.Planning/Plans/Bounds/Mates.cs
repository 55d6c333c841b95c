using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Which cells of a mask one block can hold together with a cell: those of a full rectangle or a full diagonal between the two.</summary>
internal sealed class Mates
{
    private readonly Mask _mask;
    private readonly int[] _left; // the first and the last x of the run along X that a place is in
    private readonly int[] _right;
    private readonly int[] _rises; // cells of the diagonal that ends at a place, from down left
    private readonly int[] _falls; // and from down right

    /// <summary>Prepares to tell.</summary>
    public Mates(Mask mask)
    {
        _mask = mask;
        var places = mask.Cells.Length;
        (_left, _right, _rises, _falls) = (new int[places], new int[places], new int[places], new int[places]);
        for (var y = 0; y < mask.Depth; y++)
        {
            for (var x = 0; x < mask.Width; x++)
                if (mask[x, y])
                {
                    var place = PlaceOf(x, y);
                    _left[place] = mask[x - 1, y] ? _left[place - 1] : x;
                    _rises[place] = 1 + (mask[x - 1, y - 1] ? _rises[place - mask.Width - 1] : 0);
                    _falls[place] = 1 + (mask[x + 1, y - 1] ? _falls[place - mask.Width + 1] : 0);
                }
            for (var x = mask.Width - 1; x >= 0; x--)
                if (mask[x, y])
                    _right[PlaceOf(x, y)] = mask[x + 1, y] ? _right[PlaceOf(x, y) + 1] : x;
        }
    }

    /// <summary>Whether one block can hold both places.</summary>
    public bool AreTogether(int one, int other)
    {
        var (low, high) = one < other ? (CellOf(one), CellOf(other)) : (CellOf(other), CellOf(one));
        return IsRectangle(low, high) || IsDiagonal(low, high);
    }

    /// <summary>About how many mates a place has: the cells of its runs along X, Y and the diagonals, as if they were full.</summary>
    public int Estimate(int place)
    {
        var (cell, above, below) = (CellOf(place), 1, 1);
        while (_mask[cell.X, cell.Y + above])
            above++;
        while (_mask[cell.X, cell.Y - below])
            below++;
        return (_right[place] - _left[place] + 1) * (above + below - 1) + _rises[place] + _falls[place];
    }

    /// <summary>All mates of a place, itself left out, each once.</summary>
    public void List(int place, List<int> mates)
    {
        mates.Clear();
        var cell = CellOf(place);
        ListRows(cell, 1, mates);
        ListRows(cell, -1, mates);
        for (var dx = -1; dx <= 1; dx += 2)
            for (var dy = -1; dy <= 1; dy += 2)
                for (var at = new Cell(cell.X + dx, cell.Y + dy); _mask[at.X, at.Y]; at = new Cell(at.X + dx, at.Y + dy))
                    if (!(dy > 0 ? IsRectangle(cell, at) : IsRectangle(at, cell)))
                        mates.Add(PlaceOf(at.X, at.Y));
    }

    // Row by row away from a cell, as far as the rows between are full: its own row goes with the way up.
    private void ListRows(Cell cell, int way, List<int> mates)
    {
        var (left, right) = (0, _mask.Width - 1);
        for (var y = cell.Y; _mask[cell.X, y]; y += way)
        {
            var under = PlaceOf(cell.X, y);
            (left, right) = (Math.Max(left, _left[under]), Math.Min(right, _right[under]));
            for (var x = left; x <= right && (y != cell.Y || way > 0); x++)
                if (x != cell.X || y != cell.Y)
                    mates.Add(PlaceOf(x, y));
        }
    }

    private bool IsRectangle(Cell low, Cell high)
    {
        var (left, right) = (Math.Min(low.X, high.X), Math.Max(low.X, high.X));
        for (var y = low.Y; y <= high.Y; y++)
            if (!_mask[left, y] || _right[PlaceOf(left, y)] < right)
                return false;
        return true;
    }

    private bool IsDiagonal(Cell low, Cell high)
    {
        var (dx, dy) = (high.X - low.X, high.Y - low.Y);
        return Math.Abs(dx) == dy && (dx > 0 ? _rises : _falls)[PlaceOf(high.X, high.Y)] > dy;
    }

    private int PlaceOf(int x, int y) => y * _mask.Width + x;

    private Cell CellOf(int place) => new(place % _mask.Width, place / _mask.Width);
}
