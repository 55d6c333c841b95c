using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>What makes a single record harder to read, to write or to follow, in points.</summary>
internal static class RecordDifficulty
{
    /// <summary>The fields head, heading and rise that are not 0: they share digits with their neighbours. 0 to 3.</summary>
    public static int OpFields(Record record) => (record.Head == Head.B ? 1 : 0) + (record.Heading != 0 ? 1 : 0) + (record.Rise ? 1 : 0);

    /// <summary>1 where x, y, p and q are not a place and a count, as in a go or a row.</summary>
    public static int OtherFields(Record record) => record.Verb is Verb.Go or Verb.Row ? 0 : 1;

    /// <summary>A row: 1 for a diagonal, 1 more where X or Y falls. A patch: 1 for each axis that falls. 0 to 2.</summary>
    public static int Direction(Record record) => record.Verb switch
    {
        Verb.Row => (IsDiagonal(record) ? 1 : 0) + (Heading.Dx(record.Heading) < 0 || Heading.Dy(record.Heading) < 0 ? 1 : 0),
        Verb.Patch => (((PatchWay)record.Heading).HasFlag(PatchWay.XFalls) ? 1 : 0) + (((PatchWay)record.Heading).HasFlag(PatchWay.YFalls) ? 1 : 0),
        _ => 0,
    };

    /// <summary>Whether a row runs along a diagonal.</summary>
    public static bool IsDiagonal(Record record) => record.Verb == Verb.Row && record.Heading % 2 == 1;

    /// <summary>A line from a cell: 2 where it is neither along an axis nor a diagonal, so that its steps must be worked out; 1 on a diagonal.</summary>
    public static int Slope(Record record, Cell from)
    {
        var (dx, dy) = (Math.Abs(record.X - from.X), Math.Abs(record.Y - from.Y));
        return record.Verb != Verb.Line || dx == 0 || dy == 0 ? 0 : dx == dy ? 1 : 2;
    }

    /// <summary>1 for more than 6 cells, 2 for more than 12.</summary>
    public static int Size(int cells) => cells switch { > 12 => 2, > 6 => 1, _ => 0 };
}
