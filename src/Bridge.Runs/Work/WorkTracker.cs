using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>Follows a run along its course: from the records and cells that the device says are done to the cells that they are.</summary>
public sealed class WorkTracker
{
    private readonly IEnumerator<Pass> _passes;
    private bool _inPass;
    private CellPathEnumerator _cells;
    private long _records;
    private long _cellsOfPass;

    /// <summary>Nothing of the course is done yet.</summary>
    /// <param name="course">The course.</param>
    /// <param name="worked">What was worked before it; it is added to.</param>
    public WorkTracker(Course course, WorkedCells? worked = null)
    {
        _passes = course.Passes();
        Worked = worked ?? new WorkedCells(course.Grid);
        NextPass();
    }

    /// <summary>The cells worked so far.</summary>
    public WorkedCells Worked { get; }

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
            Worked.Add(_cells.Current, _passes.Current.Entry.Layer, _passes.Current.Entry.Head);
        }
    }

    private void NextPass()
    {
        _inPass = _passes.MoveNext();
        if (!_inPass)
            return;
        _cells = _passes.Current.Work.GetEnumerator();
        _cellsOfPass = 0;
    }
}
