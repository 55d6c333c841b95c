namespace Bridge.Jobs;

/// <summary>A record as a person reads it: its bits, and its meaning in words.</summary>
public static class RecordWords
{
    private static readonly string[] Directions = ["+X", "+X+Y", "+Y", "-X+Y", "-X", "-X-Y", "-Y", "+X-Y"];

    /// <summary>The bits of a record by field: verb head heading rise, x, y, p, q.</summary>
    public static string Bits(RecordWidth width, Record record)
    {
        var n = width.AxisBits;
        return $"{(int)record.Verb:b3} {(int)record.Head:b1} {record.Heading:b3} {(record.Rise ? 1 : 0)}  "
            + $"{Field(record.X)} {Field(record.Y)} {Field(record.P)} {Field(record.Q)}";

        string Field(int value) => value.ToString("b", null).PadLeft(n, '0');
    }

    /// <summary>The meaning of a record in words, whether or not it is one that may be done.</summary>
    public static string Meaning(RecordWidth width, Record record)
    {
        var meaning = record.Verb switch
        {
            Verb.End => "end: the job is complete",
            Verb.Go => $"go to {record.At} with head {Name(record.Head)}",
            Verb.Row => $"row: head {Name(record.Head)} works {Count(record.PairPq(width) + 1, "cell")} from {record.At} along {Directions[record.Heading]}",
            Verb.Patch => $"patch: head {Name(record.Head)} works {record.P + 1} x {record.Q + 1} cells "
                + $"from the corner {record.At}, {Way((PatchWay)record.Heading)}",
            Verb.Line => $"line: head {Name(record.Head)} works in a straight line to {record.At}",
            Verb.Again => $"again: the last {Count(record.PairXy(width) + 1, "record")}, {Count(record.PairPq(width) + 1, "more time")}",
            Verb.Wait when record.Heading == 1 => "wait until the operator goes on",
            Verb.Wait => $"wait {record.PairPq(width) / 10}.{record.PairPq(width) % 10} s",
            _ => "none: never valid",
        };
        return record.Rise ? $"up a layer, then {meaning}" : meaning;
    }

    /// <summary>The letter of a head: a or b.</summary>
    public static char Name(Head head) => head == Head.A ? 'a' : 'b';

    private static string Way(PatchWay way) =>
        (way.HasFlag(PatchWay.AlongY) ? "along Y first" : "along X first")
        + (way.HasFlag(PatchWay.XFalls) ? ", X falling" : ", X growing")
        + (way.HasFlag(PatchWay.YFalls) ? ", Y falling" : ", Y growing");

    private static string Count(int number, string what) => number == 1 ? $"1 {what}" : $"{number} {what}s";
}
