using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A set of cells of one layer of a shape.</summary>
internal sealed class CellSet
{
    private readonly bool[] _cells;

    private CellSet(int width, int depth, bool[] cells) => (Width, Depth, _cells) = (width, depth, cells);

    /// <summary>No cells.</summary>
    public CellSet(int width, int depth) : this(width, depth, new bool[width * depth])
    {
    }

    /// <summary>Cells along X.</summary>
    public int Width { get; }

    /// <summary>Cells along Y.</summary>
    public int Depth { get; }

    /// <summary>How many cells are in it.</summary>
    public int Count => _cells.AsSpan().Count(true);

    /// <summary>The first cell in it, by y, then x.</summary>
    public Cell First => _cells.AsSpan().IndexOf(true) is >= 0 and var place
        ? new Cell(place % Width, place / Width)
        : throw new InvalidOperationException("The set is empty.");

    /// <summary>Whether a cell is in it; none outside is.</summary>
    public bool this[int x, int y]
    {
        get => (uint)x < (uint)Width && (uint)y < (uint)Depth && _cells[y * Width + x];
        set => _cells[y * Width + x] = value;
    }

    /// <summary>The cells that either head works on a layer.</summary>
    public static CellSet Of(Shape shape, int layer)
    {
        var set = new CellSet(shape.Width, shape.Depth);
        var marks = shape.LayerCells(layer);
        for (var place = 0; place < marks.Length; place++)
            set._cells[place] = marks[place] != Shape.Empty;
        return set;
    }

    /// <summary>All its cells, by y, then x.</summary>
    public IEnumerable<Cell> Cells()
    {
        for (var place = 0; place < _cells.Length; place++)
            if (_cells[place])
                yield return new Cell(place % Width, place / Width);
    }

    /// <summary>Adds the cells of another set.</summary>
    public CellSet With(CellSet other)
    {
        var both = new CellSet(Width, Depth, [.. _cells]);
        for (var place = 0; place < _cells.Length; place++)
            both._cells[place] |= other._cells[place];
        return both;
    }

    /// <summary>Takes the cells of another set out.</summary>
    public CellSet Without(CellSet other)
    {
        var left = new CellSet(Width, Depth, [.. _cells]);
        for (var place = 0; place < _cells.Length; place++)
            left._cells[place] &= !other._cells[place];
        return left;
    }

    /// <summary>The cells around which all within so many along X and along Y are in it.</summary>
    public CellSet Shrunk(int by)
    {
        var shrunk = new CellSet(Width, Depth);
        var runs = new int[_cells.Length]; // cells in a row, up to here
        for (var place = 0; place < _cells.Length; place++)
            runs[place] = !_cells[place] ? 0 : place % Width == 0 ? 1 : runs[place - 1] + 1;
        for (var x = by; x < Width - by; x++)
            for (int y = 0, run = 0; y < Depth; y++)
            {
                run = runs[y * Width + x + by] > 2 * by ? run + 1 : 0;
                if (run > 2 * by)
                    shrunk[x, y - by] = true;
            }
        return shrunk;
    }

    /// <summary>The same cells as the proof of a job knows them.</summary>
    public LayerCells ToLayerCells()
    {
        var cells = new LayerCells(new Grid(Width, Depth, 1));
        foreach (var cell in Cells())
            cells.Add(cell);
        return cells;
    }
}
