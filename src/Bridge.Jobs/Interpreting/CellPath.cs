namespace Bridge.Jobs;

/// <summary>The cells that a record works, in order: the start where it is worked, then straight legs.</summary>
public readonly struct CellPath : IEquatable<CellPath>
{
    private readonly PatchWay _way;
    private readonly int _rows;     // rows of a patch; 0 where there is at most one leg
    private readonly Cell _far;     // the corner across of a patch; the last cell of anything else

    private CellPath(Cell start, bool worksStart, Cell far, int rows, PatchWay way)
    {
        Start = start;
        WorksStart = worksStart;
        _far = far;
        _rows = rows;
        _way = way;
    }

    /// <summary>Where the work starts.</summary>
    public Cell Start { get; }

    /// <summary>Whether the start itself is worked.</summary>
    public bool WorksStart { get; }

    /// <summary>How many legs follow the start. A leg may have no cells.</summary>
    public int Legs => _rows == 0 ? 1 : 2 * _rows - 1;

    /// <summary>How many cells are worked.</summary>
    public long Cells => (WorksStart ? 1 : 0)
        + (_rows == 0 ? LegAt(0).Cells : (long)_rows * (Math.Abs(Across) + 1) - 1);

    /// <summary>The last cell worked, or the start where none is.</summary>
    public Cell Last => LegAt(Legs - 1).To;

    /// <summary>The two cells that stand furthest apart: the path lies within their rectangle.</summary>
    public (Cell One, Cell Other) Corners => (Start, _far);

    private bool AlongY => _way.HasFlag(PatchWay.AlongY);

    private int Across => AlongY ? _far.Y - Start.Y : _far.X - Start.X;

    /// <summary>No work at all, standing on a cell.</summary>
    public static CellPath None(Cell at) => new(at, worksStart: false, at, 0, default);

    /// <summary>A row of cells from the first one along a heading.</summary>
    public static CellPath Row(Cell first, int heading, int cells) =>
        new(first, worksStart: true,
            new Cell(first.X + Heading.Dx(heading) * (cells - 1), first.Y + Heading.Dy(heading) * (cells - 1)), 0, default);

    /// <summary>A rectangle of cells from a corner, back and forth.</summary>
    public static CellPath Patch(Cell corner, int cellsX, int cellsY, PatchWay way)
    {
        var far = new Cell(
            corner.X + (way.HasFlag(PatchWay.XFalls) ? 1 - cellsX : cellsX - 1),
            corner.Y + (way.HasFlag(PatchWay.YFalls) ? 1 - cellsY : cellsY - 1));
        return new(corner, worksStart: true, far, way.HasFlag(PatchWay.AlongY) ? cellsX : cellsY, way);
    }

    /// <summary>The cells of a straight line, without the one it starts on.</summary>
    public static CellPath Line(Cell from, Cell to) => new(from, worksStart: false, to, 0, default);

    /// <summary>The leg at an index from 0. In a patch the even ones are rows, the odd ones the step to the next row.</summary>
    public Leg LegAt(int index)
    {
        if (_rows == 0)
            return new Leg(Start, _far);
        var row = index / 2;
        var forth = row % 2 == 0;
        return index % 2 == 0
            ? new Leg(At(row, !forth), At(row, forth))
            : new Leg(At(row, forth), At(row + 1, forth));
    }

    /// <summary>Goes through the cells in order.</summary>
    public CellPathEnumerator GetEnumerator() => new(this);

    /// <inheritdoc/>
    public bool Equals(CellPath other) => Start == other.Start && WorksStart == other.WorksStart
        && _far == other._far && _rows == other._rows && _way == other._way;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is CellPath other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Start, WorksStart, _far, _rows, _way);

    /// <summary>Whether two paths work the same cells in the same way.</summary>
    public static bool operator ==(CellPath left, CellPath right) => left.Equals(right);

    /// <summary>Whether two paths differ.</summary>
    public static bool operator !=(CellPath left, CellPath right) => !left.Equals(right);

    private Cell At(int row, bool far)
    {
        var sign = AlongY ? Math.Sign(_far.X - Start.X) : Math.Sign(_far.Y - Start.Y);
        return AlongY
            ? new Cell(Start.X + sign * row, far ? _far.Y : Start.Y)
            : new Cell(far ? _far.X : Start.X, Start.Y + sign * row);
    }
}
