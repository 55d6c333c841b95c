using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>The records of a run in the order in which they are sent: each `again` unrolled, the `end` last where there is one.</summary>
public sealed class RecordSource(Image image, Grid grid)
{
    private readonly PassReader _passes = new(image, grid);
    private Record _next;
    private bool _hasNext;
    private bool _endTaken;

    /// <summary>Records taken so far: the index of the next one.</summary>
    public uint Taken { get; private set; }

    /// <summary>Packs the next records into a buffer, whole ones and at most so many; tells how many.</summary>
    public int Take(Span<byte> buffer, long most)
    {
        var taken = 0;
        var bytes = image.Width.Bytes;
        while (taken < most && (taken + 1) * bytes <= buffer.Length && TryPeek(out var record))
        {
            RecordCodec.Write(image.Width, record, buffer[(taken * bytes)..]);
            _hasNext = false;
            taken++;
        }

        Taken += (uint)taken;
        return taken;
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
        if (_passes.TryNext(out var pass))
        {
            record = pass.Record;
            return true;
        }

        record = Record.End;
        var due = image.HasEnd && !_endTaken;
        _endTaken = true;
        return due;
    }
}
