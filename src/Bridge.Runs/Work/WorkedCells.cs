using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>What has been worked, cell by cell: for each layer that holds any, which heads worked where.</summary>
public sealed class WorkedCells(Grid grid)
{
    private readonly byte[]?[] _layers = new byte[grid.Layers][]; // for each layer that holds any: the heads of each cell, row by row

    /// <summary>The grid that the cells lie on.</summary>
    public Grid Grid => grid;

    /// <summary>The layers on which anything was worked, lowest first.</summary>
    public IEnumerable<int> Layers => Enumerable.Range(0, grid.Layers).Where(layer => _layers[layer] is not null);

    /// <summary>Cells worked by each head, a cell worked twice counted twice: head a, head b.</summary>
    public (long A, long B) Counts { get; private set; }

    /// <summary>Adds a worked cell of the grid.</summary>
    public void Add(Cell cell, int layer, Head head)
    {
        var cells = _layers[layer] ??= new byte[grid.X * grid.Y];
        cells[cell.Y * grid.X + cell.X] |= Bit(head);
        Counts = head == Head.A ? (Counts.A + 1, Counts.B) : (Counts.A, Counts.B + 1);
    }

    /// <summary>Whether a head worked a cell.</summary>
    public bool Has(Cell cell, int layer, Head head) => (HeadsAt(cell, layer) & Bit(head)) != 0;

    /// <summary>Whether any head worked a cell.</summary>
    public bool Has(Cell cell, int layer) => HeadsAt(cell, layer) != 0;

    /// <summary>Whether a cell is worked by the same heads in another set.</summary>
    public bool IsSame(WorkedCells other, Cell cell, int layer) => HeadsAt(cell, layer) == other.HeadsAt(cell, layer);

    /// <summary>In how many cells two sets differ: worked in one and not in the other, or by another head. Their grids are the same.</summary>
    public long CountDifferences(WorkedCells other) => Layers.Union(other.Layers).Sum(layer => CountDifferences(other, layer));

    /// <summary>In how many cells of a layer two sets differ.</summary>
    public long CountDifferences(WorkedCells other, int layer)
    {
        var nothing = new byte[grid.X * grid.Y];
        return CountDifferences(OnLayer(layer) ?? nothing, other.OnLayer(layer) ?? nothing);
    }

    /// <summary>How many cells, by head, are in this set and not in another of the same grid.</summary>
    public long CountBeyond(WorkedCells other) =>
        Layers.Sum(layer => CountOn(layer, (cell, head) => Has(cell, layer, head) && !other.Has(cell, layer, head)));

    /// <summary>How many of those on one layer are of a third set too.</summary>
    public long CountBeyond(WorkedCells other, int layer, Func<Cell, Head, bool> isThere) =>
        CountOn(layer, (cell, head) => Has(cell, layer, head) && !other.Has(cell, layer, head) && isThere(cell, head));

    /// <summary>The cells that an image works, up to its end or to what stops it.</summary>
    public static WorkedCells Of(Image image, Grid grid)
    {
        var worked = new WorkedCells(grid);
        var interpreter = new Interpreter(image, grid);
        while (interpreter.MoveNext())
            worked.Add(interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head);
        return worked;
    }

    private long CountOn(int layer, Func<Cell, Head, bool> counts)
    {
        var count = 0L;
        for (var y = 0; y < grid.Y && OnLayer(layer) is not null; y++)
            for (var x = 0; x < grid.X; x++)
                count += (counts(new Cell(x, y), Head.A) ? 1 : 0) + (counts(new Cell(x, y), Head.B) ? 1 : 0);
        return count;
    }

    private static long CountDifferences(byte[] one, byte[] other)
    {
        var count = 0L;
        for (var at = 0; at < one.Length; at++)
            if (one[at] != other[at])
                count++;
        return count;
    }

    private byte HeadsAt(Cell cell, int layer) => OnLayer(layer) is { } cells ? cells[cell.Y * grid.X + cell.X] : (byte)0;

    private byte[]? OnLayer(int layer) => layer >= 0 && layer < _layers.Length ? _layers[layer] : null;

    private static byte Bit(Head head) => head == Head.A ? (byte)1 : (byte)2;
}
