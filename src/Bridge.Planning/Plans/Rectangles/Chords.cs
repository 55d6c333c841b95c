namespace Bridge.Planning;

/// <summary>A straight cut through worked cells that joins two concave corners, from a point along X or Y.</summary>
internal readonly record struct Chord(int X, int Y, int Length);

/// <summary>
/// All chords of a mask. Those along one axis never meet one another: a concave corner is left by one cut along each axis.
/// </summary>
internal sealed class Chords
{
    private readonly int[] _firstAtY; // the first horizontal chord of each y; one more at the end

    /// <summary>Finds the chords of a mask.</summary>
    public Chords(Mask mask)
    {
        _firstAtY = new int[mask.Depth + 2];
        for (var y = 0; y <= mask.Depth; y++)
        {
            _firstAtY[y] = Horizontal.Count;
            for (var x = 0; x <= mask.Width; x++)
                AddFrom(mask, x, y);
        }
        _firstAtY[^1] = Horizontal.Count;
    }

    /// <summary>Chords along X, by y, then x.</summary>
    public List<Chord> Horizontal { get; } = [];

    /// <summary>Chords along Y, by y, then x of their lower end.</summary>
    public List<Chord> Vertical { get; } = [];

    /// <summary>The horizontal chords that a vertical one crosses or touches, lowest first.</summary>
    public IEnumerable<int> Crossing(Chord vertical)
    {
        for (var y = vertical.Y; y <= vertical.Y + vertical.Length; y++)
            if (HorizontalAt(vertical.X, y) is >= 0 and var horizontal)
                yield return horizontal;
    }

    private void AddFrom(Mask mask, int x, int y)
    {
        var corner = Corners.At(mask, x, y);
        if (!Corners.IsConcave(corner))
            return;
        if (Corners.CutAlongX(corner) > 0)
        {
            var end = x + 1;
            while (Corners.At(mask, end, y) == 0b1111)
                end++;
            if (Corners.IsConcave(Corners.At(mask, end, y)))
                Horizontal.Add(new Chord(x, y, end - x));
        }
        if (Corners.CutAlongY(corner) > 0)
        {
            var end = y + 1;
            while (Corners.At(mask, x, end) == 0b1111)
                end++;
            if (Corners.IsConcave(Corners.At(mask, x, end)))
                Vertical.Add(new Chord(x, y, end - y));
        }
    }

    private int HorizontalAt(int x, int y)
    {
        var (low, high) = (_firstAtY[y], _firstAtY[y + 1] - 1);
        while (low <= high)
        {
            var middle = (low + high) / 2;
            var chord = Horizontal[middle];
            if (x < chord.X)
                high = middle - 1;
            else if (x > chord.X + chord.Length)
                low = middle + 1;
            else
                return middle;
        }
        return -1;
    }
}
