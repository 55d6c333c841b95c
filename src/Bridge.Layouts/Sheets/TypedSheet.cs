using System.Text;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Reads back what somebody typed in from a sheet, and names each row that is wrong.</summary>
public static class TypedSheet
{
    private const int MostBytes = 4 * 1024 * 1024;
    private const int MostNamed = 100;

    /// <summary>The image's bytes, where every row is right.</summary>
    /// <param name="path">The text: a row for each record as ADDRESS: BITS CHECK or ADDRESS: BYTES CHECK; # begins a remark; the address may be left
    /// out.</param>
    /// <param name="recordBytes">Bytes of a record, 1 to 8.</param>
    /// <param name="job">The bytes that the sheet was made of, to hold each row against; null where they are not at hand.</param>
    /// <exception cref="RefusedException">A row is wrong, missing, there twice or not the job's; each is named, up to 100.</exception>
    public static byte[] Read(string path, int recordBytes, byte[]? job = null) => Parse(InputFile.ReadAll(path, MostBytes), path, recordBytes, job);

    /// <summary>The same from the text's bytes.</summary>
    /// <exception cref="RefusedException">A row is wrong, missing, there twice or not the job's; each is named, up to 100.</exception>
    public static byte[] Parse(ReadOnlySpan<byte> text, string name, int recordBytes, byte[]? job = null)
    {
        var rows = Rows(Encoding.Latin1.GetString(text), recordBytes);
        if (rows.Count == 0)
            throw new RefusedException(name, "no row", "a row for each record, such as 0000: 01000000 00010010 00000100 C",
                "Type the sheet in, row by row.");
        if (OtherWidth(rows) is { } width)
            throw new RefusedException(name, $"{width} bits in all rows", $"{8 * recordBytes} bits, as the records of this machine have",
                "Is --layout missing, or is it another one than the sheet's?");
        var placed = new PlacedRows(rows, name, recordBytes);
        var refusals = new TypedFaults(name, placed, recordBytes, job).All().Take(MostNamed).ToList();
        return refusals.Count == 0 ? [.. placed.Rows.Values.SelectMany(row => row.Bytes!)] : throw new RefusedException(refusals);
    }

    private static List<TypedRow> Rows(string text, int recordBytes) => [.. text.Split('\n')
        .Select((written, index) => (Words: written.Split('#')[0].Trim(), Line: index + 1))
        .Where(row => row.Words.Length > 0)
        .Select(row => new TypedRow(row.Line, row.Words, recordBytes))];

    // The width of all rows that have one, where no row has the width of a record.
    private static int? OtherWidth(List<TypedRow> rows) => rows.All(row => row.Bytes is null)
        && rows.Select(row => row.Width).OfType<int>().Distinct().ToList() is [var width] ? width : null;
}
