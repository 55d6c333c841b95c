namespace Bridge.Planning;

/// <summary>Which cells of a mask hang together by their sides: a rectangle never reaches from one island to another.</summary>
internal sealed class Islands
{
    private readonly int _width;
    private readonly int[] _island; // 1 + the island, 0 where no cell is

    /// <summary>Finds the islands of a mask.</summary>
    public Islands(Mask mask)
    {
        _width = mask.Width;
        _island = new int[mask.Width * mask.Depth];
        for (var y = 0; y < mask.Depth; y++)
            for (var x = 0; x < mask.Width; x++)
                if (mask[x, y] && _island[y * _width + x] == 0)
                    Flood(mask, x, y, ++Count);
    }

    /// <summary>How many there are.</summary>
    public int Count { get; }

    /// <summary>The island, 0 and up, that a block of worked cells is part of.</summary>
    public int Of(Block block) => _island[block.Y * _width + block.X] - 1;

    private void Flood(Mask mask, int startX, int startY, int island)
    {
        var waiting = new Stack<(int X, int Y)>();
        Reach(startX, startY);
        while (waiting.TryPop(out var at))
        {
            Reach(at.X + 1, at.Y);
            Reach(at.X - 1, at.Y);
            Reach(at.X, at.Y + 1);
            Reach(at.X, at.Y - 1);
        }

        void Reach(int x, int y)
        {
            if ((uint)x >= (uint)mask.Width || (uint)y >= (uint)mask.Depth || !mask[x, y] || _island[y * _width + x] != 0)
                return;
            _island[y * _width + x] = island;
            waiting.Push((x, y));
        }
    }
}
