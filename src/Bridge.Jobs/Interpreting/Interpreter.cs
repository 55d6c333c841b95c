namespace Bridge.Jobs;

/// <summary>What a job means: the cells it works, lazily and in order.</summary>
public sealed class Interpreter(Image image, Grid grid)
{
    private readonly PassReader _passes = new(image, grid);
    private Pass _pass;
    private CellPathEnumerator _cells = CellPath.None(default).GetEnumerator();

    /// <summary>What stopped it; null while it goes on and when the job is complete.</summary>
    public JobFault? Fault => _passes.Fault;

    /// <summary>The cell worked last.</summary>
    public WorkedCell Current => new(_cells.Current, _pass.Entry.Layer, _pass.Entry.Head, _pass.Index);

    /// <summary>Works the next cell; false when the job is complete and on a fault.</summary>
    public bool MoveNext()
    {
        while (!_cells.MoveNext())
        {
            if (!_passes.TryNext(out _pass))
                return false;
            _cells = _pass.Work.GetEnumerator();
        }

        return true;
    }
}
