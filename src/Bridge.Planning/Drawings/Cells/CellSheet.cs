using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A sheet of cells that lines and areas are drawn on, in cells from its corner, y going up; what lies off the sheet is left out.</summary>
internal sealed class CellSheet(int width, int depth, ReadingEffort effort)
{
    private readonly byte[] _inks = new byte[width * depth];
    private int[]? _windings;

    /// <summary>Whether any cell is to be worked.</summary>
    public bool IsEmpty => !_inks.AsSpan().ContainsAnyExcept((byte)Ink.Light);

    /// <summary>Inks the cells of a polyline.</summary>
    public void Draw(IReadOnlyList<Dot> line, Ink ink)
    {
        foreach (var (x, y) in new LineCells(width, depth, effort).Of(line))
            if ((uint)x < (uint)width && (uint)y < (uint)depth)
                _inks[y * width + x] = (byte)ink;
    }

    /// <summary>Inks the cells whose centres lie inside some polylines, each closed by a straight line where it is not; false where none does.</summary>
    public bool Fill(IReadOnlyList<IReadOnlyList<Dot>> lines, bool isEvenOdd, Ink ink)
    {
        _windings ??= new int[(width + 1) * depth];
        var (bottom, top) = (depth, -1);
        foreach (var line in lines)
            for (var i = 0; i < line.Count; i++)
            {
                var (first, last) = Cross(line[i], line[(i + 1) % line.Count]);
                (bottom, top) = (Math.Min(bottom, first), Math.Max(top, last));
            }
        var isInked = false;
        for (var y = bottom; y <= top; y++)
            isInked |= FillRow(y, isEvenOdd, ink);
        return isInked;
    }

    /// <summary>Hands the cells over to a shape, its corner at a cell of it.</summary>
    public void CopyTo(ShapeBuilder shape, int left, int bottom)
    {
        var marks = new byte[shape.Width];
        for (var y = 0; y < depth && bottom + y < shape.Depth; y++)
        {
            for (var x = 0; x < width && left + x < shape.Width; x++)
                marks[left + x] = (Ink)_inks[y * width + x] switch
                {
                    Ink.Dark => Shape.Mark(Head.A),
                    Ink.Coloured => Shape.Mark(Head.B),
                    _ => Shape.Empty,
                };
            shape.CopyRow(bottom + y, 0, marks);
        }
    }

    // Notes where an edge crosses the middle of each row: from there on to the right the winding number is another.
    private (int First, int Last) Cross(Dot from, Dot to)
    {
        var (low, high, turn) = from.Y <= to.Y ? (from, to, 1) : (to, from, -1);
        var first = (int)Math.Clamp(Math.Ceiling(low.Y - 0.5), 0, depth);
        var last = (int)Math.Clamp(Math.Ceiling(high.Y - 0.5) - 1, -1, depth - 1);
        effort.Spend(Math.Max(1, last - first));
        var slope = (high.X - low.X) / (high.Y - low.Y);
        for (var y = first; y <= last; y++)
        {
            var x = low.X + (y + 0.5 - low.Y) * slope;
            _windings![y * (width + 1) + (int)Math.Clamp(Math.Ceiling(x - 0.5), 0, width)] += turn;
        }
        return first <= last ? (first, last) : (depth, -1);
    }

    private bool FillRow(int y, bool isEvenOdd, Ink ink)
    {
        var windings = _windings.AsSpan(y * (width + 1), width + 1);
        effort.Spend(width);
        var (winding, isInked) = (0, false);
        for (var x = 0; x < width; x++)
        {
            winding += windings[x];
            if (isEvenOdd ? winding % 2 == 0 : winding == 0)
                continue;
            _inks[y * width + x] = (byte)ink;
            isInked = true;
        }
        windings.Clear();
        return isInked;
    }
}
