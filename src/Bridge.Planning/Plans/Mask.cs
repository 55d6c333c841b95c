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
        CellCount = cells.AsSpan().Count(true);
    }

    /// <summary>Tells masks of other cells apart, and of the same cells at another place.</summary>
    public static IEqualityComparer<Mask> SameCells { get; } = EqualityComparer<Mask>.Create(
        (one, other) => one!.Origin == other!.Origin && one.Width == other.Width && one.Cells.SequenceEqual(other.Cells),
        mask => HashCode.Combine(mask.Origin, mask.Width, mask.CellCount));

    /// <summary>Cells along X, 1 and up.</summary>
    public int Width { get; }

    /// <summary>Cells along Y, 1 and up.</summary>
    public int Depth { get; }

    /// <summary>Where the mask's own (0, 0) lies on the layer.</summary>
    public Cell Origin { get; private init; }

    /// <summary>How many cells are worked, 1 and up.</summary>
    public int CellCount { get; }

    /// <summary>Whether a cell is worked; none outside is.</summary>
    public bool this[int x, int y] => (uint)x < (uint)Width && (uint)y < (uint)Depth && _cells[y * Width + x];

    /// <summary>All cells, row by row from y = 0.</summary>
    public ReadOnlySpan<bool> Cells => _cells;

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

    /// <summary>The mask of the cells of some blocks, its origin where the first of them lies.</summary>
    public static Mask Of(IReadOnlyCollection<Block> blocks)
    {
        int left = blocks.Min(block => block.X), bottom = blocks.Min(block => block.Y);
        int width = blocks.Max(block => block.X + block.CellsX) - left, depth = blocks.Max(block => block.Y + block.CellsY) - bottom;
        var cells = new bool[width * depth];
        foreach (var block in blocks)
            foreach (var (x, y) in block.Cells())
                cells[(y - bottom) * width + x - left] = true;
        return new Mask(width, depth, cells) { Origin = new Cell(left, bottom) };
    }

    /// <summary>A part of the mask, from one of its cells on; it may hold no cell to work.</summary>
    public Mask Part(Cell from, int width, int depth)
    {
        var cells = new bool[width * depth];
        for (var y = 0; y < depth; y++)
            Cells.Slice((from.Y + y) * Width + from.X, width).CopyTo(cells.AsSpan(y * width));
        return new Mask(width, depth, cells) { Origin = from };
    }
}
