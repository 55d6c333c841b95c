using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>The cells of one layer that one head works, cropped to where they are.</summary>
internal sealed class Mask
{
    private readonly bool[] _cells;

    private Mask(int width, int depth, bool[] cells)
    {
        Width = width;
        Depth = depth;
        _cells = cells;
    }

    /// <summary>Cells along X, 1 and up.</summary>
    public int Width { get; }

    /// <summary>Cells along Y, 1 and up.</summary>
    public int Depth { get; }

    /// <summary>Where the mask's own (0, 0) lies on the layer.</summary>
    public Cell Origin { get; private init; }

    /// <summary>Whether a cell of the mask is worked.</summary>
    public bool this[int x, int y] => _cells[y * Width + x];

    /// <summary>The row of cells at a y.</summary>
    public ReadOnlySpan<bool> Row(int y) => _cells.AsSpan(y * Width, Width);

    /// <summary>A copy of all cells, row by row from y = 0.</summary>
    public bool[] ToArray() => [.. _cells];

    /// <summary>The mask of a head on a layer; null where the head works no cell of it.</summary>
    public static Mask? Of(Shape shape, int layer, Head head)
    {
        var marks = shape.LayerCells(layer);
        var mark = Shape.Mark(head);
        int left = int.MaxValue, right = -1, bottom = -1, top = -1;
        for (var y = 0; y * shape.Width < marks.Length; y++)
        {
            var row = marks.Slice(y * shape.Width, shape.Width);
            var first = row.IndexOf(mark);
            if (first < 0)
                continue;
            (left, right) = (Math.Min(left, first), Math.Max(right, row.LastIndexOf(mark)));
            (bottom, top) = (bottom < 0 ? y : bottom, y);
        }
        if (bottom < 0)
            return null;

        var (width, depth) = (right - left + 1, top - bottom + 1);
        var cells = new bool[width * depth];
        for (var y = 0; y < depth; y++)
            for (var x = 0; x < width; x++)
                cells[y * width + x] = marks[(bottom + y) * shape.Width + left + x] == mark;
        return new Mask(width, depth, cells) { Origin = new Cell(left, bottom) };
    }

    /// <summary>The mask seen another way round; blocks found in it are seen back through the same view.</summary>
    public Mask Seen(View view)
    {
        if (view == View.Plain)
            return this;
        var (width, depth) = view.HasFlag(View.Transposed) ? (Depth, Width) : (Width, Depth);
        var cells = new bool[width * depth];
        for (var y = 0; y < depth; y++)
            for (var x = 0; x < width; x++)
            {
                var at = Original(view, new Block(x, y, 1, 1));
                cells[y * width + x] = this[at.X, at.Y];
            }
        return new Mask(width, depth, cells) { Origin = Origin };
    }

    /// <summary>Where a rectangle of the seen mask lies on this one.</summary>
    public Block Original(View view, Block seen)
    {
        Debug.Assert(seen.Slant == Slant.None, "Only rectangles are seen back.");
        var block = view.HasFlag(View.Transposed) ? new Block(seen.Y, seen.X, seen.CellsY, seen.CellsX) : seen;
        if (view.HasFlag(View.XFalls))
            block = block with { X = Width - block.X - block.CellsX };
        if (view.HasFlag(View.YFalls))
            block = block with { Y = Depth - block.Y - block.CellsY };
        return block;
    }
}

/// <summary>One of the eight ways to look at a layer.</summary>
[Flags]
internal enum View : byte
{
    /// <summary>As it is.</summary>
    Plain = 0,

    /// <summary>Columns as rows.</summary>
    Transposed = 1,

    /// <summary>From the right.</summary>
    XFalls = 2,

    /// <summary>From the far edge.</summary>
    YFalls = 4,
}
