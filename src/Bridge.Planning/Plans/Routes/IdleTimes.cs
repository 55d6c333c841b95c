using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Planning;

/// <summary>How long a machine takes between cells of a layer without work, and for the work of a block.</summary>
internal sealed class IdleTimes
{
    private const int MostKept = 256; // cells along an axis up to which times are kept

    private readonly Machine _machine;
    private readonly Func<int, int, double> _computed;
    private readonly int _keptX;
    private readonly float[] _seconds; // by cells along X, then Y

    /// <summary>The times of a machine.</summary>
    public IdleTimes(Machine machine) : this(machine, Computed(machine))
    {
    }

    /// <summary>Times of another rule, for the cells between along X and along Y.</summary>
    public IdleTimes(Machine machine, Func<int, int, double> seconds)
    {
        (_machine, _computed) = (machine, seconds);
        _keptX = Math.Min(MostKept, machine.X.Cells);
        var keptY = Math.Min(MostKept, machine.Y.Cells);
        _seconds = new float[_keptX * keptY];
        for (var y = 0; y < keptY; y++)
            for (var x = 0; x < _keptX; x++)
                _seconds[y * _keptX + x] = (float)_computed(x, y);
    }

    /// <summary>Seconds from rest at one cell to rest at another.</summary>
    public float Between(Cell from, Cell to)
    {
        int x = Math.Abs(to.X - from.X), y = Math.Abs(to.Y - from.Y), kept = y * _keptX + x;
        return x < _keptX && kept < _seconds.Length ? _seconds[kept] : (float)_computed(x, y);
    }

    /// <summary>Seconds that a head moves for while it works a block: a pen stops at the ends of rows, a dot at every cell.</summary>
    public float Of(Block block, Stroke stroke, Head head)
    {
        if (block.CellsX == 1 || block.CellsY == 1 || block.Slant != Slant.None)
            return 0; // the same in every way
        var (row, rows) = stroke.AlongY ? (block.CellsY - 1, block.CellsX) : (block.CellsX - 1, block.CellsY);
        var (stops, step) = _machine.Tool(head) is HeadTool.Pen ? (1, row) : (row, 1);
        var alongRow = stroke.AlongY ? Between(default, new Cell(0, step)) : Between(default, new Cell(step, 0));
        var toNext = stroke.AlongY ? Between(default, new Cell(1, 0)) : Between(default, new Cell(0, 1));
        return rows * stops * alongRow + (rows - 1) * toNext;
    }

    private static Func<int, int, double> Computed(Machine machine)
    {
        var carriage = new Carriage(machine);
        return (x, y) => carriage.ProfileAlong(new Place(x * machine.X.PitchMm, y * machine.Y.PitchMm, 0)).Seconds;
    }
}
