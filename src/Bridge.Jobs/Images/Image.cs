namespace Bridge.Jobs;

/// <summary>The bytes of a job's records, as they stand in the store: at least one record, at most one `end`, which is the last.</summary>
public sealed class Image
{
    private readonly byte[] _bytes;

    private Image(RecordWidth width, byte[] bytes)
    {
        Width = width;
        _bytes = bytes;
    }

    /// <summary>The largest image that is read, in bytes: 16 MiB.</summary>
    public const int LargestBytes = 16 * 1024 * 1024;

    /// <summary>The size of its records.</summary>
    public RecordWidth Width { get; }

    /// <summary>Its bytes, whole records, the `end` included where there is one.</summary>
    public ReadOnlyMemory<byte> Bytes => _bytes;

    /// <summary>Its records, the `end` included where there is one.</summary>
    public int Count => _bytes.Length / Width.Bytes;

    /// <summary>Whether its last record is `end`. Without one it must fill the store to the last whole record.</summary>
    public bool HasEnd => this[Count - 1].Verb == Verb.End;

    /// <summary>The record at an index from 0.</summary>
    public Record this[int index] => RecordCodec.Read(Width, _bytes.AsSpan(index * Width.Bytes, Width.Bytes));

    /// <summary>Packs records, at least one; nothing may stand behind an `end`.</summary>
    public static Image Of(RecordWidth width, IReadOnlyList<Record> records)
    {
        var bytes = new byte[records.Count * width.Bytes];
        for (var index = 0; index < records.Count; index++)
            RecordCodec.Write(width, records[index], bytes.AsSpan(index * width.Bytes));
        return Parse(width, bytes, "image");
    }

    /// <summary>
    /// Takes an image from the bytes of a store. What stands behind the first `end`, or behind the last whole record, must be blank:
    /// all 00 or all FF.
    /// </summary>
    /// <param name="width">The size of its records.</param>
    /// <param name="store">The bytes, up to 16 MiB.</param>
    /// <param name="place">Where they come from, for a refusal.</param>
    /// <exception cref="RefusedException">No whole record, too many bytes, or something behind the end.</exception>
    public static Image Parse(RecordWidth width, ReadOnlySpan<byte> store, string place)
    {
        if (store.Length > LargestBytes)
            throw new RefusedException(place, $"{store.Length} bytes", $"up to {LargestBytes} bytes", "Is this the right file?");
        if (store.Length < width.Bytes)
            throw new RefusedException(place, $"{store.Length} bytes", $"at least one record of {width.Bytes} bytes",
                "The image is empty or cut short: write it again.");
        var length = LengthOf(width, store);
        var rest = store[length..];
        if (!IsBlank(rest))
            throw new RefusedException($"{place}, byte {length}", $"{rest.Length} bytes that are not blank",
                $"whole records of {width.Bytes} bytes, and only 00 or only FF behind the end",
                "The image is cut short, has something behind its end, or is of another width or of a layout: give the right file.");
        return new Image(width, store[..length].ToArray());
    }

    private static int LengthOf(RecordWidth width, ReadOnlySpan<byte> store)
    {
        var whole = store.Length - store.Length % width.Bytes;
        for (var at = 0; at < whole; at += width.Bytes)
            if (!store.Slice(at, width.Bytes).ContainsAnyExcept((byte)0))
                return at + width.Bytes;
        return whole;
    }

    private static bool IsBlank(ReadOnlySpan<byte> bytes) =>
        !bytes.ContainsAnyExcept((byte)0x00) || !bytes.ContainsAnyExcept((byte)0xFF);
}
