using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// The cells whose centres lie inside a mesh. A ray along each axis goes through the centres of each column of cells and counts the skins that
/// it passes, by the way they face; a column that ends inside has no vote. Half of the votes of the three axes decide. Bounds of cells are
/// half open, so that a ray through an edge or a corner passes each closed skin once.
/// </summary>
internal sealed class MeshSolid(Grid grid, bool isConsistent, ReadingEffort effort)
{
    private const int ForInside = 1;
    private const int Votes = 4;

    private readonly byte[] _votes = new byte[(long)grid.X * grid.Y * grid.Layers]; // those for inside in the lower two bits, all of them above
    private readonly short[] _windings = new short[(long)grid.X * grid.Y * grid.Layers];
    private int _openAxes;

    /// <summary>Whether rays ended inside along every axis, most of those that met the mesh: nothing can be said then.</summary>
    public bool IsOpenEverywhere => _openAxes == 3;

    /// <summary>Whether some cell lies inside several times.</summary>
    public bool HasOverlap { get; private set; }

    /// <summary>Sends rays along all three axes through triangles of three corners each.</summary>
    public void Vote(Cells[] corners)
    {
        var (alongX, alongY, alongZ) = (1, grid.X, grid.X * grid.Y);
        Along(corners, at => new Cells(at.Y, at.Z, at.X), new Rays(grid.Y, alongY, grid.Layers, alongZ, grid.X, alongX));
        Along(corners, at => new Cells(at.Z, at.X, at.Y), new Rays(grid.Layers, alongZ, grid.X, alongX, grid.Y, alongY));
        Along(corners, at => at, new Rays(grid.X, alongX, grid.Y, alongY, grid.Layers, alongZ));
    }

    /// <summary>Has head a work the cells inside; their number.</summary>
    public long CopyTo(ShapeBuilder shape)
    {
        var count = 0L;
        var marks = new byte[grid.X];
        for (var row = 0; row < grid.Y * grid.Layers; row++)
        {
            for (var x = 0; x < grid.X; x++)
            {
                var votes = _votes[row * grid.X + x];
                var isInside = votes % Votes > 0 && 2 * (votes % Votes) >= votes / Votes; // a tie comes of a hole that a ray goes in and out by
                marks[x] = isInside ? Shape.Mark(Head.A) : Shape.Empty;
                count += isInside ? 1 : 0;
            }
            shape.CopyRow(row % grid.Y, row / grid.Y, marks);
        }
        return count;
    }

    private void Along(Cells[] corners, Func<Cells, Cells> seen, Rays rays)
    {
        Array.Clear(_windings);
        var totals = new short[rays.Columns * rays.Rows];
        var isMet = new bool[totals.Length];
        for (var i = 0; i < corners.Length; i += 3)
            Cross(seen(corners[i]), seen(corners[i + 1]), seen(corners[i + 2]), rays, totals, isMet);
        var (met, open) = (0, 0);
        for (var ray = 0; ray < totals.Length; ray++)
        {
            if (!isMet[ray])
            {
                Count(ray, rays, parityAlone: false);
                continue;
            }
            met++;
            if (totals[ray] % 2 != 0)
                open++;
            else
                Count(ray, rays, parityAlone: !isConsistent || totals[ray] != 0);
        }
        _openAxes += 2 * open > met ? 1 : 0;
    }

    // Notes the skin that a triangle is, in every ray that passes it: from there on the winding number is another.
    private void Cross(Cells a, Cells b, Cells c, Rays rays, short[] totals, bool[] isMet)
    {
        var first = Math.Max(0, FirstFrom(Math.Min(a.Y, Math.Min(b.Y, c.Y))));
        var last = Math.Min(rays.Rows, FirstFrom(Math.Max(a.Y, Math.Max(b.Y, c.Y)))) - 1;
        effort.Spend(1);
        for (var row = first; row <= last; row++)
        {
            var (left, right, sign) = Span(a, b, c, row + 0.5);
            var (start, end) = (Math.Max(0, FirstFrom(left)), Math.Min(rays.Columns, FirstFrom(right)));
            effort.Spend(Math.Max(1, end - start));
            for (var column = start; column < end; column++)
            {
                var ray = row * rays.Columns + column;
                totals[ray] = (short)(totals[ray] + sign);
                isMet[ray] = true;
                var at = Math.Max(0, FirstFrom(Height(a, b, c, column + 0.5, row + 0.5)));
                if (at < rays.Length)
                {
                    ref var winding = ref _windings[rays.Start(ray) + at * rays.Step];
                    winding = (short)(winding + sign);
                }
            }
        }
    }

    private void Count(int ray, Rays rays, bool parityAlone)
    {
        var (at, winding) = (rays.Start(ray), 0);
        for (var i = 0; i < rays.Length; i++, at += rays.Step)
        {
            winding += _windings[at];
            HasOverlap |= winding is > 1 or < -1;
            var isInside = parityAlone ? winding % 2 != 0 : winding != 0;
            _votes[at] += (byte)(Votes + (isInside ? ForInside : 0));
        }
    }

    // Where the row crosses the triangle: from its left to its right edge. Facing the ray's end is +1 out, so entering is -1; only the change counts.
    private static (double Left, double Right, int Sign) Span(Cells a, Cells b, Cells c, double y)
    {
        var (isAB, isBC, isCA) = (a.Y <= y != b.Y <= y, b.Y <= y != c.Y <= y, c.Y <= y != a.Y <= y);
        var (first, isFirstUp) = isAB ? (CrossingAt(a, b, y), a.Y <= y) : (CrossingAt(b, c, y), b.Y <= y);
        var second = isCA ? CrossingAt(c, a, y) : CrossingAt(b, c, y);
        System.Diagnostics.Debug.Assert(isAB || isBC, "A row between the least and the most of three corners crosses two edges.");
        return first <= second ? (first, second, isFirstUp ? -1 : 1) : (second, first, isFirstUp ? 1 : -1);
    }

    // The same number for both triangles at the edge, whichever way they go along it.
    private static double CrossingAt(Cells from, Cells to, double y)
    {
        var (low, high) = from.Y < to.Y || (from.Y == to.Y && from.X <= to.X) ? (from, to) : (to, from);
        return low.X + (y - low.Y) * ((high.X - low.X) / (high.Y - low.Y));
    }

    // The height of the triangle's plane there, never beyond its corners.
    private static double Height(Cells a, Cells b, Cells c, double x, double y)
    {
        var (ux, uy, vx, vy) = (b.X - a.X, b.Y - a.Y, c.X - a.X, c.Y - a.Y);
        var area = ux * vy - vx * uy;
        var (s, t) = (((x - a.X) * vy - vx * (y - a.Y)) / area, (ux * (y - a.Y) - (x - a.X) * uy) / area);
        var height = a.Z + s * (b.Z - a.Z) + t * (c.Z - a.Z);
        var (least, most) = (Math.Min(a.Z, Math.Min(b.Z, c.Z)), Math.Max(a.Z, Math.Max(b.Z, c.Z)));
        return height >= least && height <= most ? height : height > most ? most : least;
    }

    // The first cell whose centre is not below a point.
    private static int FirstFrom(double at) => (int)Math.Ceiling(at - 0.5);

    // Rays through columns and rows of cells; how far apart those lie in memory, and the cells along a ray.
    private readonly record struct Rays(int Columns, int ColumnStep, int Rows, int RowStep, int Length, int Step)
    {
        public int Start(int ray) => ray % Columns * ColumnStep + ray / Columns * RowStep;
    }
}
