using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Typed rows, each at the address that it belongs to: behind the row before it, or where its own address says and its check digit agrees.</summary>
internal sealed class PlacedRows
{
    private readonly SortedDictionary<int, TypedRow> _rows = [];
    private readonly List<(int Address, TypedRow Row)> _twice = [];
    private readonly int _recordBytes;

    public PlacedRows(IEnumerable<TypedRow> rows, string name, int recordBytes)
    {
        _recordBytes = recordBytes;
        var next = 0;
        foreach (var row in rows)
        {
            var address = AddressOf(row, next);
            if (address + recordBytes > ImageSheet.MostBytes)
                throw new RefusedException(name, $"more than {ImageSheet.MostBytes} bytes", $"up to {ImageSheet.MostBytes}", "Is this the right file?");
            if (!_rows.TryAdd(address, row))
                _twice.Add((address, row));
            next = Math.Max(next, address + recordBytes);
        }
    }

    /// <summary>The rows by their addresses.</summary>
    public IReadOnlyDictionary<int, TypedRow> Rows => _rows;

    /// <summary>Rows whose place was taken already.</summary>
    public IReadOnlyList<(int Address, TypedRow Row)> Twice => _twice;

    /// <summary>
    /// The other row of the sheet that a wrong one is; null where none is told from chance. Its digit fits one row in 16, so the row that was typed
    /// there must agree: it is the same, or itself belongs here, or is off by as much.
    /// </summary>
    public int? RowThatIs(TypedRow row, int address)
    {
        foreach (var (other, typed) in _rows)
            if (other != address && row.Fits(other) && (typed.Fits(other) ? typed.Bytes.AsSpan().SequenceEqual(row.Bytes)
                : typed.Fits(address) || typed.Fits(2 * other - address)))
                return other;
        return null;
    }

    // Where the digit agrees with neither place, a row that leaves out one is believed.
    private int AddressOf(TypedRow row, int next) => row.Address is { } typed && typed % _recordBytes == 0 && typed + _recordBytes <= ImageSheet.MostBytes
        && (row.Fits(typed) || typed == next + _recordBytes && !row.Fits(next))
        ? typed : next;
}
