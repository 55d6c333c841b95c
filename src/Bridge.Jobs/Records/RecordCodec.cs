using System.Diagnostics;

namespace Bridge.Jobs;

/// <summary>Records to bytes and back: op(8) x(n) y(n) p(n) q(n), most significant bit first. Every bit pattern has a record.</summary>
public static class RecordCodec
{
    /// <summary>Unpacks the record at the start of some bytes, at least one record long.</summary>
    public static Record Read(RecordWidth width, ReadOnlySpan<byte> bytes)
    {
        Debug.Assert(bytes.Length >= width.Bytes, "A whole record is read.");
        var op = bytes[0];
        var fields = 0UL;
        foreach (var octet in bytes[1..width.Bytes])
            fields = fields << 8 | octet;
        var n = width.AxisBits;
        return new Record(
            (Verb)(op >> 5), (Head)(op >> 4 & 1), op >> 1 & 7, (op & 1) == 1,
            Field(fields, n, 3), Field(fields, n, 2), Field(fields, n, 1), Field(fields, n, 0));
    }

    /// <summary>Packs a record into the start of some bytes, at least one record long. Each field must fit its bits.</summary>
    public static void Write(RecordWidth width, Record record, Span<byte> bytes)
    {
        Debug.Assert(Fits(width, record), "Each field fits its bits.");
        bytes[0] = Opcode(record);
        var n = width.AxisBits;
        var fields = ((((ulong)record.X << n | (uint)record.Y) << n | (uint)record.P) << n) | (uint)record.Q;
        for (var at = width.Bytes - 1; at >= 1; at--, fields >>= 8)
            bytes[at] = (byte)fields;
    }

    /// <summary>The first byte of a record: verb(3) head(1) heading(3) rise(1).</summary>
    public static byte Opcode(Record record) =>
        (byte)((int)record.Verb << 5 | (int)record.Head << 4 | record.Heading << 1 | (record.Rise ? 1 : 0));

    private static int Field(ulong fields, int bits, int place) => (int)(fields >> (bits * place)) & ((1 << bits) - 1);

    private static bool Fits(RecordWidth width, Record record) =>
        (record.X | record.Y | record.P | record.Q) >> width.AxisBits == 0 && record.Heading >> 3 == 0;
}
