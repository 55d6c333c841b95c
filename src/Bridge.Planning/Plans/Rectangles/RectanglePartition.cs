namespace Bridge.Planning;

/// <summary>
/// Cuts a mask into the fewest rectangles that hold every cell once: as many chords as can be drawn without crossing or
/// touching, then one cut from each concave corner that is left (Ohtsuki 1982; Ferrari, Sankar and Sklansky 1984).
/// </summary>
internal sealed class RectanglePartition
{
    private readonly Mask _mask;
    private readonly Walls[] _walls;
    private readonly bool[] _isOpen; // worked, and not yet in a rectangle

    private RectanglePartition(Mask mask)
    {
        _mask = mask;
        _walls = new Walls[mask.Cells.Length];
        _isOpen = mask.Cells.ToArray();
    }

    [Flags]
    private enum Walls : byte
    {
        Left = 1,
        Below = 2,
        ChordAtCorner = 4,
    }

    /// <summary>The fewest rectangles, by y, then x.</summary>
    public static List<Block> Cut(Mask mask)
    {
        var partition = new RectanglePartition(mask);
        partition.DrawChords(IndependentChords.Of(mask));
        partition.CutOtherCorners();
        return partition.Rectangles();
    }

    /// <summary>
    /// The number that the theorem gives: concave corners less independent chords less holes plus islands. Cells that touch
    /// by their corners alone are apart.
    /// </summary>
    public static int Fewest(Mask mask)
    {
        var (concave, euler) = Corners.Count(mask);
        var (horizontal, vertical) = IndependentChords.Of(mask);
        return concave - horizontal.Count - vertical.Count + euler;
    }

    private void DrawChords((List<Chord> Horizontal, List<Chord> Vertical) chords)
    {
        foreach (var chord in chords.Horizontal)
        {
            for (var x = chord.X; x < chord.X + chord.Length; x++)
                At(x, chord.Y) |= Walls.Below;
            Resolve(chord.X, chord.Y);
            Resolve(chord.X + chord.Length, chord.Y);
        }
        foreach (var chord in chords.Vertical)
        {
            for (var y = chord.Y; y < chord.Y + chord.Length; y++)
                At(chord.X, y) |= Walls.Left;
            Resolve(chord.X, chord.Y);
            Resolve(chord.X, chord.Y + chord.Length);
        }
    }

    // A concave corner is never on the far edges of the mask, so that it has a cell up and right of it.
    private void Resolve(int x, int y) => At(x, y) |= Walls.ChordAtCorner;

    private void CutOtherCorners()
    {
        for (var y = 0; y < _mask.Depth; y++)
            for (var x = 0; x < _mask.Width; x++)
                if (Corners.At(_mask, x, y) is var corner && Corners.IsConcave(corner) && !At(x, y).HasFlag(Walls.ChordAtCorner))
                    CutAlongX(x, y, Corners.CutAlongX(corner));
    }

    // As far as both sides are worked and no vertical chord is in the way.
    private void CutAlongX(int x, int y, int way)
    {
        for (var cell = way > 0 ? x : x - 1; _mask[cell, y] && _mask[cell, y - 1]; cell += way)
        {
            At(cell, y) |= Walls.Below;
            var next = way > 0 ? cell + 1 : cell;
            if (next < _mask.Width && (At(next, y) & At(next, y - 1)).HasFlag(Walls.Left))
                break;
        }
    }

    private List<Block> Rectangles()
    {
        List<Block> blocks = [];
        for (var start = _isOpen.AsSpan().IndexOf(true); start >= 0;)
        {
            var block = RectangleFrom(start % _mask.Width, start / _mask.Width);
            blocks.Add(block);
            for (var y = block.Y; y < block.Y + block.CellsY; y++)
                _isOpen.AsSpan(y * _mask.Width + block.X, block.CellsX).Clear();
            var step = _isOpen.AsSpan(start).IndexOf(true);
            start = step < 0 ? -1 : start + step;
        }
        return blocks;
    }

    private Block RectangleFrom(int x, int y)
    {
        int right = x + 1, top = y + 1;
        while (_mask[right, y] && !At(right, y).HasFlag(Walls.Left))
            right++;
        while (_mask[x, top] && !At(x, top).HasFlag(Walls.Below))
            top++;
        return new Block(x, y, right - x, top - y);
    }

    private ref Walls At(int x, int y) => ref _walls[y * _mask.Width + x];
}

/// <summary>A largest set of chords of which no two cross or touch.</summary>
internal static class IndependentChords
{
    /// <summary>The chords of the set along X and along Y.</summary>
    public static (List<Chord> Horizontal, List<Chord> Vertical) Of(Mask mask)
    {
        var chords = new Chords(mask);
        var crossing = chords.Vertical.Select(chord => chords.Crossing(chord).ToArray()).ToArray();
        var (vertical, horizontal) = new BipartiteMatching(crossing, chords.Horizontal.Count).LargestIndependentSet();
        return ([.. chords.Horizontal.Where((_, index) => horizontal[index])], [.. chords.Vertical.Where((_, index) => vertical[index])]);
    }
}
