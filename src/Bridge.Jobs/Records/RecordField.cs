using System.Diagnostics;

namespace Bridge.Jobs;

/// <summary>One field of a record: its name, its bits, and what they say.</summary>
/// <param name="Name">The name, as in JOB-FORMAT.md.</param>
/// <param name="Bits">The bits, most significant first.</param>
/// <param name="Says">What they say in a word or a number.</param>
public sealed record RecordField(string Name, string Bits, string Says)
{
    /// <summary>All eight fields of a record, in the order of their bits.</summary>
    public static IReadOnlyList<RecordField> Of(RecordWidth width, Record record)
    {
        var n = width.AxisBits;
        RecordField[] fields =
        [
            Field("verb", (int)record.Verb, 3, record.Verb.ToString().ToLowerInvariant()),
            Field("head", (int)record.Head, 1, $"{RecordWords.Name(record.Head)}"),
            Field("heading", record.Heading, 3, $"{record.Heading}"),
            Field("rise", record.Rise ? 1 : 0, 1, record.Rise ? "up" : "-"),
            Field("x", record.X, n, $"{record.X}"),
            Field("y", record.Y, n, $"{record.Y}"),
            Field("p", record.P, n, $"{record.P}"),
            Field("q", record.Q, n, $"{record.Q}"),
        ];
        Debug.Assert(fields.Sum(field => field.Bits.Length) == 8 * width.Bytes, "Every bit belongs to a field.");
        return fields;
    }

    /// <summary>A row of names above a row of bits above a row of what they say, each field in a column.</summary>
    public static IReadOnlyList<string> Table(IReadOnlyList<RecordField> fields)
    {
        return [Row(field => field.Name), Row(field => field.Bits), Row(field => field.Says)];

        string Row(Func<RecordField, string> part) => string.Join("  ", fields.Select(field => part(field).PadRight(WidthOf(field)))).TrimEnd();

        static int WidthOf(RecordField field) => Math.Max(field.Name.Length, Math.Max(field.Bits.Length, field.Says.Length));
    }

    private static RecordField Field(string name, int value, int bits, string says) =>
        new(name, value.ToString("b", null).PadLeft(bits, '0'), says);
}
