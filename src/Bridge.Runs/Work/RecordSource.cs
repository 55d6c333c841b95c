using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>The records of a run's course in the order in which they are sent: each `again` unrolled, the `end` last where there is one.</summary>
public sealed class RecordSource(Course course)
{
    private readonly IEnumerator<Pass> _passes = course.Passes();
    private Record _next;
    private bool _hasNext;
    private bool _endTaken;

    /// <summary>Records taken so far: the index of the next one.</summary>
    public uint Taken { get; private set; }

    /// <summary>Packs the next records into a buffer, whole ones and at most so many; tells how many.</summary>
    public int Take(Span<byte> buffer, long most)
    {
        var taken = 0;
        var bytes = course.Width.Bytes;
        while (taken < most && (taken + 1) * bytes <= buffer.Length && TryPeek(out var record))
        {
            RecordCodec.Write(course.Width, record, buffer[(taken * bytes)..]);
            _hasNext = false;
            taken++;
        }

        Taken += (uint)taken;
        return taken;
    }

    /// <summary>Leaves out the first records, which somebody else has sent.</summary>
    public void Skip(uint records)
    {
        for (; Taken < records && TryPeek(out _); Taken++)
            _hasNext = false;
    }

    private bool TryPeek(out Record record)
    {
        if (!_hasNext)
            _hasNext = TryNext(out _next);
        record = _next;
        return _hasNext;
    }

    private bool TryNext(out Record record)
    {
        if (_passes.MoveNext())
        {
            record = _passes.Current.Record;
            return true;
        }

        record = Record.End;
        var due = course.HasEnd && !_endTaken;
        _endTaken = true;
        return due;
    }
}
