using System.Globalization;
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
    /// <exception cref="RefusedException">A row is wrong, missing or there twice; each is named.</exception>
    public static byte[] Read(string path, int recordBytes) => Parse(InputFile.ReadAll(path, MostBytes), path, recordBytes);

    /// <summary>The same from the text's bytes.</summary>
    /// <exception cref="RefusedException">A row is wrong, missing or there twice; each is named.</exception>
    public static byte[] Parse(ReadOnlySpan<byte> text, string name, int recordBytes)
    {
        var (image, refusals) = (new List<byte>(), new List<Refusal>());
        var line = 0;
        foreach (var written in Encoding.Latin1.GetString(text).Split('\n'))
        {
            line++;
            var words = written.Split('#')[0].Trim();
            if (words.Length == 0)
                continue;
            var row = new TypedRow(words, recordBytes);
            if (row.Refusal($"{name}, line {line}", image.Count) is { } refusal && refusals.Count < MostNamed)
                refusals.Add(refusal);
            image.AddRange(row.Bytes ?? new byte[recordBytes]);
            if (image.Count > ImageSheet.MostBytes)
                throw new RefusedException(name, $"more than {ImageSheet.MostBytes} bytes", $"up to {ImageSheet.MostBytes}", "Is this the right file?");
        }
        if (image.Count == 0)
            refusals.Add(new Refusal(name, "no row", "a row for each record, such as 0000: 01000000 00010010 00000100 C", "Type the sheet in, row by row."));
        return refusals.Count == 0 ? [.. image] : throw new RefusedException(refusals);
    }

    /// <summary>How typed bytes differ from those of a job, row by row.</summary>
    public static IReadOnlyList<Refusal> Differences(ReadOnlySpan<byte> typed, ReadOnlySpan<byte> job, int recordBytes)
    {
        var refusals = new List<Refusal>();
        for (var at = 0; at < Math.Max(typed.Length, job.Length) && refusals.Count < MostNamed; at += recordBytes)
        {
            var (one, other) = (Row(typed, at, recordBytes), Row(job, at, recordBytes));
            if (one != other)
                refusals.Add(new Refusal(TypedRow.PlaceOf(at, recordBytes), one.Length == 0 ? "nothing" : one, other.Length == 0
                    ? "nothing: the job has ended" : $"{other}, as the job has it",
                    "Set and type that row again."));
        }
        return refusals;
    }

    private static string Row(ReadOnlySpan<byte> bytes, int at, int recordBytes) => at + recordBytes > bytes.Length ? ""
        : string.Join(' ', bytes.Slice(at, recordBytes).ToArray().Select(octet => octet.ToString("b8", CultureInfo.InvariantCulture)));
}
