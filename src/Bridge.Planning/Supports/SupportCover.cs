using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Support on one layer for the cells above it that need it, in few rectangles, which may hold more cells than are needed.</summary>
internal sealed class SupportCover
{
    private readonly CellSet _due;
    private readonly CellSet _free; // where support may be and is not yet
    private readonly CellSet _support;
    private int _rectangles;

    /// <summary>Starts without support.</summary>
    /// <param name="due">The cells that need it.</param>
    /// <param name="free">Where on the layer below it may be.</param>
    public SupportCover(CellSet due, CellSet free)
    {
        (_due, Left, _free) = (due, due.Without(new CellSet(due.Width, due.Depth)), free);
        _support = new CellSet(due.Width, due.Depth);
    }

    /// <summary>The cells that still need support.</summary>
    public CellSet Left { get; }

    /// <summary>Puts rectangles under cells until none is left that one could be put under within so many cells along X and Y.</summary>
    public void Put(int reach)
    {
        foreach (var cell in Left.Cells())
            if (Left[cell.X, cell.Y] && Seed(cell, reach) is { } seed)
                Put(new[] { Grown(seed, alongXFirst: true), Grown(seed, alongXFirst: false) }
                    .Select(room => Needed(room, reach))
                    .OrderByDescending(needed => needed.Cells).ThenBy(needed => needed.Rectangle.CellsX * needed.Rectangle.CellsY).First().Rectangle, reach);
    }

    /// <summary>The support, or just the cells below those that need it where these can be and are no more rectangles.</summary>
    public CellSet Fewest()
    {
        var isBelow = _due.Without(_free.With(_support)).Count == 0;
        return isBelow && RectanglePartition.Fewest(MaskOf(_due)) < _rectangles ? _due : _support;
    }

    private static Mask MaskOf(CellSet set) => Mask.Of([.. set.Cells().Select(cell => new Block(cell.X, cell.Y, 1, 1))]);

    // The free cell nearest to a cell: where it is itself, if that can be.
    private Cell? Seed(Cell cell, int reach)
    {
        for (var away = 0; away <= reach; away++)
            for (var y = cell.Y - away; y <= cell.Y + away; y++)
                for (var x = cell.X - away; x <= cell.X + away; x++)
                    if (_free[x, y])
                        return new Cell(x, y);
        return null;
    }

    // A rectangle of free cells that cannot be made longer.
    private Block Grown(Cell seed, bool alongXFirst)
    {
        var room = new Block(seed.X, seed.Y, 1, 1);
        for (var pass = 0; pass < 2; pass++)
            room = alongXFirst == (pass == 0) ? GrownAlongX(room) : GrownAlongY(room);
        return room;
    }

    private Block GrownAlongX(Block room)
    {
        while (IsFree(new Block(room.X - 1, room.Y, 1, room.CellsY)))
            room = room with { X = room.X - 1, CellsX = room.CellsX + 1 };
        while (IsFree(new Block(room.X + room.CellsX, room.Y, 1, room.CellsY)))
            room = room with { CellsX = room.CellsX + 1 };
        return room;
    }

    private Block GrownAlongY(Block room)
    {
        while (IsFree(new Block(room.X, room.Y - 1, room.CellsX, 1)))
            room = room with { Y = room.Y - 1, CellsY = room.CellsY + 1 };
        while (IsFree(new Block(room.X, room.Y + room.CellsY, room.CellsX, 1)))
            room = room with { CellsY = room.CellsY + 1 };
        return room;
    }

    private bool IsFree(Block block)
    {
        for (var y = block.Y; y < block.Y + block.CellsY; y++)
            for (var x = block.X; x < block.X + block.CellsX; x++)
                if (!_free[x, y])
                    return false;
        return true;
    }

    // What of the room is needed for the cells within reach of it, and how many these are.
    private (Block Rectangle, int Cells) Needed(Block room, int reach)
    {
        int left = int.MaxValue, right = -1, bottom = int.MaxValue, top = -1, cells = 0;
        foreach (var cell in WithinReach(room, reach))
        {
            cells++;
            (left, right) = (Math.Min(left, cell.X), Math.Max(right, cell.X));
            (bottom, top) = (Math.Min(bottom, cell.Y), Math.Max(top, cell.Y));
        }
        var (x, cellsX) = Needed(left, right, room.X, room.CellsX, reach);
        var (y, cellsY) = Needed(bottom, top, room.Y, room.CellsY, reach);
        return (new Block(x, y, cellsX, cellsY), cells);
    }

    // Along one axis: from where to where it must go to be near enough to all from low to high.
    private static (int From, int Cells) Needed(int low, int high, int room, int roomCells, int reach)
    {
        var middle = (low + high) / 2;
        var from = Math.Clamp(Math.Min(low + reach, middle), room, room + roomCells - 1);
        var to = Math.Clamp(Math.Max(high - reach, middle), from, room + roomCells - 1);
        return (from, to - from + 1);
    }

    private IEnumerable<Cell> WithinReach(Block block, int reach)
    {
        for (var y = block.Y - reach; y < block.Y + block.CellsY + reach; y++)
            for (var x = block.X - reach; x < block.X + block.CellsX + reach; x++)
                if (Left[x, y])
                    yield return new Cell(x, y);
    }

    private void Put(Block rectangle, int reach)
    {
        foreach (var cell in WithinReach(rectangle, reach).ToList())
            Left[cell.X, cell.Y] = false;
        foreach (var cell in rectangle.Cells())
            (_free[cell.X, cell.Y], _support[cell.X, cell.Y]) = (false, true);
        _rectangles++;
    }
}
