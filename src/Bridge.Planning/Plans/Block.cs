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
    /// <summary>The ways to work it, none of them another one turned round: up to four.</summary>
    public IEnumerable<Stroke> Strokes()
    {
        int right = X + CellsX - 1, top = Y + CellsY - 1;
        Cell corner = new(X, Y), across = new(right, top), beside = new(right, Y), above = new(X, top);
        if (Slant == Slant.Falls)
            yield return new Stroke(above, beside, false);
        else if (Slant == Slant.Rises || CellsX == 1 || CellsY == 1)
            yield return new Stroke(corner, across, CellsY > 1);
        else
        {
            // Back and forth: an odd number of rows ends across, an even one on the side it began on.
            yield return new Stroke(corner, CellsY % 2 == 1 ? across : above, false);
            yield return new Stroke(beside, CellsY % 2 == 1 ? above : across, false);
            yield return new Stroke(corner, CellsX % 2 == 1 ? across : beside, true);
            yield return new Stroke(above, CellsX % 2 == 1 ? beside : across, true);
        }
    }

    /// <summary>The blocks of one row, column or cell less at an end; none of a single cell.</summary>
    public IEnumerable<Block> Shortened()
    {
        if (Slant != Slant.None)
        {
            var slant = CellsX > 2 ? Slant : Slant.None;
            yield return new Block(X, Slant == Slant.Rises ? Y : Y + 1, CellsX - 1, CellsY - 1, slant);
            yield return new Block(X + 1, Slant == Slant.Rises ? Y + 1 : Y, CellsX - 1, CellsY - 1, slant);
            yield break;
        }
        if (CellsX > 1)
        {
            yield return this with { CellsX = CellsX - 1 };
            yield return this with { X = X + 1, CellsX = CellsX - 1 };
        }
        if (CellsY > 1)
        {
            yield return this with { CellsY = CellsY - 1 };
            yield return this with { Y = Y + 1, CellsY = CellsY - 1 };
        }
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

    /// <summary>The record that works it in one of its ways.</summary>
    public Record Record(Stroke stroke, RecordWidth width, Head head, bool rise)
    {
        var first = stroke.First;
        if (CellsX == 1 || CellsY == 1 || Slant != Slant.None)
        {
            var heading = HeadingOf(Math.Sign(stroke.Last.X - first.X), Math.Sign(stroke.Last.Y - first.Y));
            return Jobs.Record.Row(width, head, first, heading, Math.Max(CellsX, CellsY), rise);
        }
        var way = (stroke.AlongY ? PatchWay.AlongY : PatchWay.AlongX)
            | (first.X == X ? 0 : PatchWay.XFalls)
            | (first.Y == Y ? 0 : PatchWay.YFalls);
        return Jobs.Record.Patch(head, first, CellsX, CellsY, way, rise);
    }

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
