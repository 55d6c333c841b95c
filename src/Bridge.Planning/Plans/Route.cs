using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Visits blocks nearest first, so that little of the way is idle.</summary>
internal sealed class Route
{
    private const int NearCells = 12;

    private readonly IReadOnlyList<Block> _blocks;
    private readonly Dictionary<Cell, int> _byCorner = [];
    private readonly List<int> _left;
    private readonly int[] _placeInLeft;

    /// <summary>Starts with all blocks to be visited; no two share a cell.</summary>
    public Route(IReadOnlyList<Block> blocks)
    {
        _blocks = blocks;
        _left = [.. Enumerable.Range(0, blocks.Count)];
        _placeInLeft = [.. _left];
        for (var block = 0; block < blocks.Count; block++)
            foreach (var corner in blocks[block].Corners())
                _byCorner.Add(corner, block);
    }

    /// <summary>Takes the block with a corner nearest to a cell, both axes moving at once; false when none is left.</summary>
    public bool TryTakeNearest(Cell from, out Block block, out Cell corner)
    {
        (block, corner) = (default, default);
        if (_left.Count == 0)
            return false;
        var (taken, at) = Near(from) ?? Far(from);
        (block, corner) = (_blocks[taken], at);
        Take(taken);
        return true;
    }

    // Square rings around the cell, nearest ring first: most blocks have their successor close by.
    private (int Block, Cell Corner)? Near(Cell from)
    {
        for (var reach = 0; reach <= NearCells; reach++)
            for (var dy = -reach; dy <= reach; dy++)
                for (var dx = -reach; dx <= reach; dx += Math.Abs(dy) == reach ? 1 : Math.Max(1, 2 * reach))
                {
                    var corner = new Cell(from.X + dx, from.Y + dy);
                    if (_byCorner.TryGetValue(corner, out var block))
                        return (block, corner);
                }
        return null;
    }

    private (int Block, Cell Corner) Far(Cell from) => _left
        .SelectMany(block => _blocks[block].Corners().Select(corner => (block, corner)))
        .MinBy(choice => (Math.Max(Math.Abs(choice.corner.X - from.X), Math.Abs(choice.corner.Y - from.Y)), choice.block));

    private void Take(int block)
    {
        foreach (var corner in _blocks[block].Corners())
            _byCorner.Remove(corner);
        var (place, last) = (_placeInLeft[block], _left[^1]);
        (_left[place], _placeInLeft[last]) = (last, place);
        _left.RemoveAt(_left.Count - 1);
    }
}
