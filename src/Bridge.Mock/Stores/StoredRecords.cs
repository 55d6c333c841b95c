using Bridge.Jobs;

namespace Bridge.Mock;

/// <summary>The records of a stored job, each `again` unrolled.</summary>
internal sealed class StoredRecords(Image image, Grid grid)
{
    private readonly PassReader _passes = new(image, grid);
    private bool _hasEnded;

    /// <summary>Whether the last record that was asked for may not be done.</summary>
    public bool IsBad => _passes.Fault is not null;

    /// <summary>The next record; false behind the last one, and at one that may not be done.</summary>
    public bool TryNext(out Record record)
    {
        record = Record.End;
        if (_passes.TryNext(out var pass))
        {
            record = pass.Record;
            return true;
        }

        var isEnd = !IsBad && !_hasEnded && image.HasEnd;
        _hasEnded = true;
        return isEnd;
    }

    /// <summary>The image in a store: up to its `end`, or to its last whole record.</summary>
    public static Image ImageOf(ReadOnlySpan<byte> octets, RecordWidth width)
    {
        var length = 0;
        var isEnd = false;
        for (; !isEnd && length + width.Bytes <= octets.Length; length += width.Bytes)
            isEnd = RecordCodec.Read(width, octets[length..]).Verb == Verb.End;
        return Image.Parse(width, octets[..length], "store");
    }

    /// <summary>Whether octets are valid records, no `again` reaches too far, and the whole is not too long.</summary>
    public static bool AreGood(ReadOnlySpan<byte> octets, RecordWidth width)
    {
        var (clear, total) = (0, 0L); // records since the start or the last `again`; records that are executed
        for (var at = 0; at + width.Bytes <= octets.Length; at += width.Bytes)
        {
            var record = RecordCodec.Read(width, octets[at..]);
            if (record.Verb == Verb.None || ReservedBits.SetIn(record).Length > 0)
                return false;
            if (record.Verb == Verb.End)
                return true;
            (clear, total) = (clear + 1, total + 1);
            if (record.Verb != Verb.Again)
                continue;
            var reach = record.PairXy(width) + 1;
            if (reach >= clear)
                return false;
            (clear, total) = (0, total + (long)reach * (record.PairPq(width) + 1));
            if (total > PassReader.MostPasses)
                return false;
        }

        return total > 0;
    }
}
