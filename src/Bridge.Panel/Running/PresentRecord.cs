using Bridge.Jobs;

namespace Bridge.Panel;

/// <summary>Follows a job to the record that comes after so many that are done, and to the one after that; it goes forwards only.</summary>
internal sealed class PresentRecord
{
    private readonly PassReader _passes;
    private long _done = -1;
    private Pass? _present;
    private Pass? _next;

    public PresentRecord(Image image, Grid grid)
    {
        _passes = new PassReader(image, grid);
        _next = Read();
    }

    /// <summary>The execution of the record that comes after some that are done, and of the one after it; null after the last.</summary>
    public (Pass? Present, Pass? Next) After(long done)
    {
        while (_done < done)
        {
            (_present, _next) = (_next, Read());
            _done++;
        }

        return (_present, _next);
    }

    private Pass? Read() => _passes.TryNext(out var pass) ? pass : null;
}
