using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>A record with one wrong bit.</summary>
/// <param name="Right">The record as it should be.</param>
/// <param name="Bit">The wrong bit, counted from the left, from 0.</param>
internal readonly record struct FlippedBit(Record Right, int Bit)
{
    /// <summary>Bits of a record.</summary>
    public static int Count => 8 * Exercise.Width.Bytes;

    /// <summary>The record as it stands in the store.</summary>
    public Record Wrong => RecordCodec.Read(Exercise.Width, WrongBytes);

    /// <summary>Its bits, byte by byte.</summary>
    public string WrongBits => string.Join(' ', WrongBytes.Select(octet => octet.ToString("b8", CultureInfo.InvariantCulture)));

    /// <summary>Whether the bit is one of verb, head, heading and rise.</summary>
    public bool IsInOp => Bit < 8;

    /// <summary>Whether the wrong record may be done: it does not show by a verb that is none, a bit that should be 0, or work off the grid.</summary>
    public bool IsPossible => IsPossibleRecord(Wrong);

    /// <summary>Whether changing another bit of the wrong record would give the same work too.</summary>
    public bool IsAmbiguous
    {
        get
        {
            var (wrong, wanted) = (Wrong, WorkOf(Right));
            return Enumerable.Range(0, Count).Count(bit => new FlippedBit(wrong, bit).Wrong is var other && IsPossibleRecord(other)
                && WorkOf(other).SetEquals(wanted)) != 1;
        }
    }

    private byte[] WrongBytes
    {
        get
        {
            var bytes = new byte[Exercise.Width.Bytes];
            RecordCodec.Write(Exercise.Width, Right, bytes);
            bytes[Bit / 8] ^= (byte)(0x80 >> Bit % 8);
            return bytes;
        }
    }

    private static bool IsPossibleRecord(Record record)
    {
        if (record.Verb == Verb.None || ReservedBits.SetIn(record).Length > 0)
            return false;
        var (one, other) = PassReader.PassOf(Exercise.Width, 0, record, default).Work.Corners;
        return Exercise.Grid.Holds(one) && Exercise.Grid.Holds(other);
    }

    private static HashSet<(Cell Cell, int Layer, Head Head)> WorkOf(Record record) =>
        record.Verb == Verb.Again ? [] : [.. new LessonJob([record]).Worked];
}
