namespace Bridge.Planning;

/// <summary>
/// The cells of a polyline, each a neighbour of the one before: along the longer axis of each piece, at the middle of each cell, the cell that
/// the piece passes there, so that no cell is more than half a cell off. Between centres of cells these are the cells of Bresenham's line.
/// </summary>
internal sealed class LineCells(int width, int depth, ReadingEffort effort)
{
    private const double Margin = 2; // cells around the sheet that lines are followed into
    private const double Edge = 1e-3; // so near to an edge between cells counts as on it
    private const double SharpCosine = 0.87; // a corner of 30 degrees and more keeps its own cell

    private readonly List<(int X, int Y)> _cells = [];
    private (int X, int Y)? _last;

    /// <summary>The cells in the order of the line, some of them off the sheet by up to two cells.</summary>
    public IReadOnlyList<(int X, int Y)> Of(IReadOnlyList<Dot> line)
    {
        var isClosed = line.Count > 2 && line[0] == line[^1];
        var isRound = isClosed && !IsSharp(line[^2], line[0], line[1]);
        if (!isRound)
            Visit(line[0], line[1]);
        for (var i = 1; i < line.Count; i++)
        {
            Follow(line[i - 1], line[i]);
            if (i == line.Count - 1 ? !isRound : IsSharp(line[i - 1], line[i], line[i + 1]))
                Visit(line[i], line[i - 1]);
        }
        if (_cells.Count == 0)
            Visit(line[0], line[1]);
        else if (isRound && _last is not null && IsNear(line[0]))
            Reach(_cells[0]);
        return _cells;
    }

    private static bool IsSharp(Dot from, Dot at, Dot to)
    {
        var (ax, ay, bx, by) = (at.X - from.X, at.Y - from.Y, to.X - at.X, to.Y - at.Y);
        return ax * bx + ay * by <= SharpCosine * Math.Sqrt((ax * ax + ay * ay) * (bx * bx + by * by));
    }

    private void Follow(Dot from, Dot to)
    {
        if (!Clip(ref from, ref to, out var isEntered, out var isLeft))
        {
            _last = null;
            return;
        }
        if (isEntered)
            _last = null;
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        if (dx == 0 && dy == 0)
            return;
        if (Math.Abs(dx) >= Math.Abs(dy))
            Step(from.X, to.X, at => (at, Row(from.Y + (at + 0.5 - from.X) * dy / dx)));
        else
            Step(from.Y, to.Y, at => (Column(from.X + (at + 0.5 - from.Y) * dx / dy), at));
        if (isLeft)
            _last = null;
    }

    private void Step(double from, double to, Func<int, (int X, int Y)> cellAt)
    {
        var (low, high) = (Math.Ceiling(Math.Min(from, to) - 0.5), Math.Floor(Math.Max(from, to) - 0.5));
        effort.Spend((long)Math.Max(1, high - low));
        if (from <= to)
            for (var at = (int)low; at <= (int)high; at++)
                Reach(cellAt(at));
        else
            for (var at = (int)high; at >= (int)low; at--)
                Reach(cellAt(at));
    }

    // The cell of an end of a piece, taken a little way inside: where it lies on an edge between cells, the one that the piece passes, not one
    // that it only touches.
    private void Visit(Dot end, Dot other)
    {
        if (!IsNear(end))
            return;
        var (dx, dy) = (other.X - end.X, other.Y - end.Y);
        var share = Flattening.Tolerance / Math.Max(Flattening.Tolerance, Math.Sqrt(dx * dx + dy * dy));
        Reach((Column(end.X + share * dx), Row(end.Y + share * dy)));
    }

    // The next cell, and those of Bresenham's line to it where it is no neighbour.
    private void Reach((int X, int Y) cell)
    {
        if (_last is { } last)
        {
            if (last == cell)
                return;
            var (dx, dy) = (cell.X - last.X, cell.Y - last.Y);
            var steps = Math.Max(Math.Abs(dx), Math.Abs(dy));
            effort.Spend(steps);
            for (var i = 1; i < steps; i++)
                _cells.Add((last.X + Share(dx, i, steps), last.Y + Share(dy, i, steps)));
        }
        _cells.Add(cell);
        _last = cell;
    }

    // Rounded to the nearest, halves away from zero.
    private static int Share(int whole, int part, int of) => Math.Sign(whole) * ((2 * Math.Abs(whole) * part + of) / (2 * of));

    // On an edge between cells it is the one to the right, or below, as rasters have it; on the edge of the sheet the one on the sheet.
    private int Column(double x) => (int)Math.Floor(x + Edge) is var column && column == width && x < width + Edge ? width - 1 : column;

    private static int Row(double y) => (int)Math.Ceiling(y - Edge) - 1 is var row && row == -1 && y > -Edge ? 0 : row;

    private bool IsNear(Dot at) => at.X >= -Margin && at.X <= width + Margin && at.Y >= -Margin && at.Y <= depth + Margin;

    // The part of a piece that lies on the sheet or just beside it (Liang and Barsky 1984).
    private bool Clip(ref Dot from, ref Dot to, out bool isEntered, out bool isLeft)
    {
        var (start, end) = (0.0, 1.0);
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        var isSeen = Cut(-dx, from.X + Margin, ref start, ref end) && Cut(dx, width + Margin - from.X, ref start, ref end)
            && Cut(-dy, from.Y + Margin, ref start, ref end) && Cut(dy, depth + Margin - from.Y, ref start, ref end);
        (isEntered, isLeft) = (start > 0, end < 1);
        var begin = from;
        if (isEntered)
            from = new Dot(begin.X + start * dx, begin.Y + start * dy);
        if (isLeft)
            to = new Dot(begin.X + end * dx, begin.Y + end * dy);
        return isSeen;
    }

    private static bool Cut(double run, double room, ref double start, ref double end)
    {
        if (run == 0)
            return room >= 0;
        if (run < 0)
            start = Math.Max(start, room / run);
        else
            end = Math.Min(end, room / run);
        return start <= end;
    }
}
