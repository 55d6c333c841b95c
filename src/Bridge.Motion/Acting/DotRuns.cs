using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>
/// Splits the work of a dot head into runs: the start by itself where it is worked, then cells that follow in one of the
/// eight directions.
/// </summary>
internal struct DotRuns(CellPath path)
{
    private CellPathEnumerator _cells = path.GetEnumerator();
    private bool _begun;
    private bool _more;

    /// <summary>The present run; no cells where it is the start by itself.</summary>
    public Leg Current { get; private set; } = new(path.Start, path.Start);

    /// <summary>Goes to the next run; false when there is none.</summary>
    public bool MoveNext()
    {
        if (!_begun)
        {
            _begun = true;
            _more = _cells.MoveNext();
            if (path.WorksStart)
            {
                _more = _cells.MoveNext();
                return true;
            }
        }

        if (!_more)
            return false;
        var (from, to) = (Current.To, _cells.Current);
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        while ((_more = _cells.MoveNext()) && _cells.Current == new Cell(to.X + dx, to.Y + dy))
            to = _cells.Current;
        Current = new Leg(from, to);
        return true;
    }
}
