using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>Follows a run through its job: from the records and cells that the device says are done to the cells that they are.</summary>
public sealed class WorkTracker
{
    private readonly PassReader _passes;
    private Pass _pass;
    private bool _inPass;
    private CellPathEnumerator _cells;
    private long _records;
    private long _cellsOfPass;

    /// <summary>Nothing is done yet.</summary>
    public WorkTracker(Image image, Grid grid)
    {
        _passes = new PassReader(image, grid);
        Worked = new WorkedCells(grid);
        _inPass = _passes.TryNext(out _pass);
        _cells = _pass.Work.GetEnumerator();
    }

    /// <summary>The cells worked so far.</summary>
    public WorkedCells Worked { get; }

    /// <summary>The record of the image that is being executed, or was last, from 0.</summary>
    public int Index => _pass.Index;

    /// <summary>Goes on to where so many records are done and so many cells of the next one. What was done before stays done.</summary>
    public void AdvanceTo(long records, long cells)
    {
        while (_inPass && _records < records)
        {
            Work(long.MaxValue);
            _records++;
            NextPass();
        }

        if (_inPass && _records == records)
            Work(cells);
    }

    private void Work(long upTo)
    {
        while (_cellsOfPass < upTo && _cells.MoveNext())
        {
            _cellsOfPass++;
            Worked.Add(_cells.Current, _pass.Entry.Layer, _pass.Entry.Head);
        }
    }

    private void NextPass()
    {
        _inPass = _passes.TryNext(out var next);
        if (!_inPass)
            return;
        _pass = next;
        _cells = _pass.Work.GetEnumerator();
        _cellsOfPass = 0;
    }
}
