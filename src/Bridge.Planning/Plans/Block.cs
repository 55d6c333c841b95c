using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Cells that one record works: a rectangle, or a diagonal of as many cells along X as along Y.</summary>
/// <param name="X">Its smallest x.</param>
/// <param name="Y">Its smallest y.</param>
/// <param name="CellsX">Cells along X, 1 and up.</param>
/// <param name="CellsY">Cells along Y, 1 and up.</param>
/// <param name="Slant">Whether it is a diagonal, and which.</param>
internal readonly record struct Block(int X, int Y, int CellsX, int CellsY, Slant Slant = Slant.None)
{
    /// <summary>The corners that work may start from: up to four, none twice.</summary>
    public IEnumerable<Cell> Corners()
    {
        int right = X + CellsX - 1, top = Y + CellsY - 1;
        if (Slant != Slant.Falls)
            yield return new Cell(X, Y);
        if (Slant != Slant.Rises && CellsX > 1)
            yield return new Cell(right, Y);
        if (Slant != Slant.Rises && CellsY > 1)
            yield return new Cell(X, top);
        if (Slant != Slant.Falls && CellsX > 1 && CellsY > 1)
            yield return new Cell(right, top);
    }

    /// <summary>The same block with (0, 0) at another cell.</summary>
    public Block MovedBy(Cell origin) => this with { X = X + origin.X, Y = Y + origin.Y };

    /// <summary>The same block as seen from a cell.</summary>
    public Block MovedBack(Cell origin) => this with { X = X - origin.X, Y = Y - origin.Y };

    /// <summary>Its cells, row by row, or along the diagonal.</summary>
    public IEnumerable<Cell> Cells()
    {
        for (var y = 0; y < CellsY; y++)
            for (var x = 0; x < CellsX; x++)
                if (Slant == Slant.None || x == (Slant == Slant.Rises ? y : CellsY - 1 - y))
                    yield return new Cell(X + x, Y + y);
    }

    /// <summary>The record that works it from a corner, and the last cell that it works.</summary>
    public (Record Record, Cell Last) From(Cell corner, RecordWidth width, Head head, bool rise)
    {
        Debug.Assert(Corners().Contains(corner), "Work starts from a corner.");
        return CellsX == 1 || CellsY == 1 || Slant != Slant.None ? Row(corner, width, head, rise) : Patch(corner, head, rise);
    }

    private (Record Record, Cell Last) Row(Cell first, RecordWidth width, Head head, bool rise)
    {
        var last = Across(first, true, true);
        var heading = HeadingOf(Math.Sign(last.X - first.X), Math.Sign(last.Y - first.Y));
        return (Record.Row(width, head, first, heading, Math.Max(CellsX, CellsY), rise), last);
    }

    // Long rows need fewer turns than short ones.
    private (Record Record, Cell Last) Patch(Cell corner, Head head, bool rise)
    {
        var alongY = CellsY > CellsX;
        var way = (alongY ? PatchWay.AlongY : PatchWay.AlongX)
            | (corner.X == X ? 0 : PatchWay.XFalls)
            | (corner.Y == Y ? 0 : PatchWay.YFalls);
        var isOdd = (alongY ? CellsX : CellsY) % 2 == 1;
        return (Record.Patch(head, corner, CellsX, CellsY, way, rise), Across(corner, alongY || isOdd, !alongY || isOdd));
    }

    private Cell Across(Cell corner, bool alongX, bool alongY) => new(
        alongX ? X + X + CellsX - 1 - corner.X : corner.X,
        alongY ? Y + Y + CellsY - 1 - corner.Y : corner.Y);

    private static int HeadingOf(int dx, int dy)
    {
        for (var heading = 0; heading < Heading.Count; heading++)
            if (Heading.Dx(heading) == dx && Heading.Dy(heading) == dy)
                return heading;
        return 0; // a single cell has no direction, and heading 0 will do
    }
}

/// <summary>Which way a diagonal goes.</summary>
internal enum Slant : byte
{
    /// <summary>Not a diagonal.</summary>
    None = 0,

    /// <summary>Y grows with X.</summary>
    Rises = 1,

    /// <summary>Y falls as X grows.</summary>
    Falls = 2,
}
