namespace Bridge.Planning;

/// <summary>
/// Labels the cells of a window anew for the fewest blocks, all labels around it kept: a dynamic program that goes cell by
/// cell, up each column, and keeps for each way the last column may look only the cheapest labelling that leads to it. It is
/// exact unless there are too many ways: then only the cheapest are followed.
/// </summary>
internal sealed class FrontierSearch
{
    /// <summary>The most rows of a window: its frontier and the rows around it fit one 64-bit word.</summary>
    public const int MostRows = 16;

    private readonly LabelGrid _grid;
    private readonly Window _window;
    private readonly int _bottom; // the lowest row looked at: the one below the window where there is one
    private readonly int _top;
    private readonly Random? _random;
    private readonly FrontierStates _now;
    private readonly FrontierStates _next;
    private readonly List<(int Parent, CellLabel Label)[]> _trail = [];

    private FrontierSearch(LabelGrid grid, Window window, int most, Random? random)
    {
        (_grid, _window, _random) = (grid, window, random);
        _bottom = Math.Max(0, window.Bottom - 1);
        _top = Math.Min(grid.Depth - 1, window.Top);
        (_now, _next) = (new FrontierStates(most), new FrontierStates(most));
    }

    /// <summary>Labels a window anew where that takes no more blocks; equal labellings are chosen among by chance.</summary>
    /// <returns>Blocks saved, and whether no other labelling of the window saves more.</returns>
    public static (int Saved, bool IsExact) Improve(LabelGrid grid, Window window, int most, Random? random, Effort effort)
    {
        var search = new FrontierSearch(grid, window, most, random);
        if (!search.HasGap())
            return (0, false);
        var before = search.Cost(keep: true, effort);
        var after = search.Cost(keep: false, effort);
        if (after <= before)
            search.Relabel();
        return (Math.Max(0, before - after), !search._now.IsCut);
    }

    // Where all cells are worked the fewest rectangles are hardly bettered.
    private bool HasGap()
    {
        for (var y = _window.Bottom - 1; y <= _window.Top; y++)
            for (var x = _window.Left - 1; x <= _window.Right; x++)
                if (_grid[x, y] == CellLabel.Empty)
                    return true;
        return false;
    }

    private int Cost(bool keep, Effort effort)
    {
        _trail.Clear();
        _now.Clear();
        _now.Offer(First(), 0, 0, CellLabel.Empty, null);
        var right = Math.Min(_grid.Width - 1, _window.Right);
        for (var x = _window.Left; x <= right; x++)
        {
            for (var y = _bottom; y <= _top; y++)
            {
                _next.Clear();
                var isKept = keep || !_window.Holds(x, y);
                for (var state = 0; state < _now.Count; state++)
                    Extend(state, x, y, isKept);
                effort.Spend(50L * (_now.Count + _next.Count + 1));
                Advance();
            }
            CloseColumn(x);
        }
        return _now.Least;
    }

    private Frontier First()
    {
        var frontier = new Frontier();
        for (var y = _bottom; y <= _top; y++)
            frontier = frontier.With(y - _bottom, _grid[_window.Left - 1, y]);
        return frontier;
    }

    private void Extend(int state, int x, int y, bool isKept)
    {
        var label = _grid[x, y];
        if (isKept || label == CellLabel.Empty)
        {
            Try(state, y, label, isKept: true);
            return;
        }
        Try(state, y, CellLabel.Rises, isKept: false);
        Try(state, y, CellLabel.Falls, isKept: false);
        for (label = CellLabel.Rectangle; label <= CellLabel.JoinedBoth; label++)
            Try(state, y, label, isKept: false);
    }

    private void Try(int state, int y, CellLabel label, bool isKept)
    {
        var frontier = _now.Key(state);
        var row = y - _bottom;
        if (frontier.Allows(row, label, isKept))
            _next.Offer(frontier.Put(row, label), _now.Cost(state) + frontier.Cost(row, _top - _bottom, label), state, label, _random);
    }

    private void Advance()
    {
        _next.Cut(_random);
        _trail.Add(_next.Steps());
        _now.Take(_next);
    }

    // What cannot go on in the next column need not be told apart.
    private void CloseColumn(int x)
    {
        var next = 0;
        for (var y = _bottom; y <= _top; y++)
            next |= _grid[x + 1, y] == CellLabel.Empty ? 0 : 1 << (y - _bottom);
        _next.Clear();
        for (var state = 0; state < _now.Count; state++)
            _next.Offer(_now.Key(state).Closed(_top - _bottom + 1, next), _now.Cost(state), state, CellLabel.Empty, _random);
        _next.DropHopeless(_random);
        _next.Cut(_random);
        _trail.Add(_next.Steps());
        _now.Take(_next);
    }

    private void Relabel()
    {
        var rows = _top - _bottom + 1;
        var state = _now.Cheapest;
        for (var step = _trail.Count - 1; step >= 0; step--)
        {
            var (parent, label) = _trail[step][state];
            var (column, row) = (step / (rows + 1), step % (rows + 1));
            if (row < rows && _window.Holds(_window.Left + column, _bottom + row))
                _grid[_window.Left + column, _bottom + row] = label;
            state = parent;
        }
    }
}

/// <summary>A rectangle of cells of a grid; Right and Top are the first outside it.</summary>
internal readonly record struct Window(int Left, int Bottom, int Right, int Top)
{
    /// <summary>Whether a cell is in it.</summary>
    public bool Holds(int x, int y) => x >= Left && x < Right && y >= Bottom && y < Top;
}
