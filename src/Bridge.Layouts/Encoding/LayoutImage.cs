using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>The bytes of a job in a layout: whole records, and at most one end, which is the last.</summary>
public sealed class LayoutImage
{
    /// <summary>The most records of an image: 1 million.</summary>
    public const int MostRecords = 1_000_000;

    private LayoutImage(Layout layout, IReadOnlyList<ulong> words) => (Layout, Words) = (layout, words);

    /// <summary>The layout of its records.</summary>
    public Layout Layout { get; }

    /// <summary>Its records, each as one number, the first byte the most significant.</summary>
    public IReadOnlyList<ulong> Words { get; }

    /// <summary>How many bytes it has.</summary>
    public int Length => Words.Count * Layout.RecordBytes;

    /// <summary>Whether its last record is an end.</summary>
    public bool HasEnd => Words.Count > 0 && Layout.VerbOf(Words[^1])?.Act == LayoutAct.End;

    /// <summary>The image of some records, up to 1 million.</summary>
    public static LayoutImage Of(Layout layout, IReadOnlyList<ulong> words) => new(layout, words);

    /// <summary>Its bytes.</summary>
    public byte[] ToBytes()
    {
        var (size, bytes) = (Layout.RecordBytes, new byte[Length]);
        for (var index = 0; index < Words.Count; index++)
            for (var at = 0; at < size; at++)
                bytes[index * size + at] = (byte)(Words[index] >> 8 * (size - 1 - at));
        return bytes;
    }

    /// <summary>
    /// Takes an image from the bytes of a store. What stands behind the first end, or behind the last whole record, must be all 00 or all FF.
    /// </summary>
    /// <param name="layout">The layout of its records.</param>
    /// <param name="store">The bytes.</param>
    /// <param name="place">Where they come from, for a refusal.</param>
    /// <exception cref="RefusedException">No whole record, too many, or something behind the end.</exception>
    public static LayoutImage Parse(Layout layout, ReadOnlySpan<byte> store, string place)
    {
        var size = layout.RecordBytes;
        if (store.Length < size || store.Length / size > MostRecords)
            throw new RefusedException(place, $"{store.Length} bytes", $"1 to {MostRecords} records of {size} bytes", "Is this the right file?");
        var words = new List<ulong>();
        for (var at = 0; at + size <= store.Length; at += size)
        {
            words.Add(WordOf(store.Slice(at, size)));
            if (layout.VerbOf(words[^1])?.Act == LayoutAct.End)
                break;
        }
        var rest = store[(words.Count * size)..];
        if (rest.ContainsAnyExcept((byte)0x00) && rest.ContainsAnyExcept((byte)0xFF))
            throw new RefusedException($"{place}, byte {words.Count * size}", $"{rest.Length} bytes that are not blank",
                $"whole records of {size} bytes, and only 00 or only FF behind the end", "The image is cut short, or of another layout: write it again.");
        return new LayoutImage(layout, words);
    }

    private static ulong WordOf(ReadOnlySpan<byte> record)
    {
        var word = 0UL;
        foreach (var octet in record)
            word = word << 8 | octet;
        return word;
    }
}
