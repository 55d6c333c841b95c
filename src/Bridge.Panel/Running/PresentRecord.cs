using Bridge.Jobs;

namespace Bridge.Panel;

/// <summary>Follows a job to the record that comes after so many that are done; it goes forwards only.</summary>
internal sealed class PresentRecord(Image image, Grid grid)
{
    private readonly PassReader _passes = new(image, grid);
    private long _done = -1;
    private Pass? _pass;

    /// <summary>Cells that are worked before the execution that was last given.</summary>
    public long CellsBefore { get; private set; }

    /// <summary>The execution of a record that comes after some that are done; null after the last.</summary>
    public Pass? After(long done)
    {
        while (_done < done)
        {
            CellsBefore += _pass?.Work.Cells ?? 0;
            _pass = _passes.TryNext(out var pass) ? pass : null;
            _done++;
        }

        return _pass;
    }
}
