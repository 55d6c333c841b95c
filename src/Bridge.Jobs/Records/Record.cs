namespace Bridge.Jobs;

/// <summary>One packed command, unpacked: op = verb(3) head(1) heading(3) rise(1), then x, y, p and q of n bits each.</summary>
/// <param name="Verb">What it does.</param>
/// <param name="Head">The head bit.</param>
/// <param name="Heading">The heading bits, 0 to 7; their meaning is the verb's.</param>
/// <param name="Rise">Whether it goes up one layer before the verb acts.</param>
/// <param name="X">Field x, 0 to 2^n - 1.</param>
/// <param name="Y">Field y, 0 to 2^n - 1.</param>
/// <param name="P">Field p, 0 to 2^n - 1.</param>
/// <param name="Q">Field q, 0 to 2^n - 1.</param>
public readonly record struct Record(Verb Verb, Head Head, int Heading, bool Rise, int X, int Y, int P, int Q)
{
    /// <summary>The job is complete.</summary>
    public static Record End => default;

    /// <summary>The cell that x and y name.</summary>
    public Cell At => new(X, Y);

    /// <summary>Moves idle to a cell with a head.</summary>
    public static Record Go(Head head, Cell to, bool rise = false) => new(Verb.Go, head, 0, rise, to.X, to.Y, 0, 0);

    /// <summary>Works a number of cells, 1 to 2^2n, from the first one along a heading 0 to 7.</summary>
    public static Record Row(RecordWidth width, Head head, Cell first, int heading, int cells, bool rise = false) =>
        new(Verb.Row, head, heading, rise, first.X, first.Y, High(width, cells - 1), Low(width, cells - 1));

    /// <summary>Works a rectangle of cells along X and Y, each 1 to 2^n, back and forth from a corner.</summary>
    public static Record Patch(Head head, Cell corner, int cellsX, int cellsY, PatchWay way, bool rise = false) =>
        new(Verb.Patch, head, (int)way, rise, corner.X, corner.Y, cellsX - 1, cellsY - 1);

    /// <summary>Works the cells of a straight line from the present cell, which is not worked, to another.</summary>
    public static Record Line(Head head, Cell to, bool rise = false) => new(Verb.Line, head, 0, rise, to.X, to.Y, 0, 0);

    /// <summary>Does the last records, 1 to 2^2n of them, again, 1 to 2^2n more times.</summary>
    public static Record Again(RecordWidth width, int records, int times) =>
        new(Verb.Again, Head.A, 0, false, High(width, records - 1), Low(width, records - 1), High(width, times - 1), Low(width, times - 1));

    /// <summary>Waits a number of tenths of a second, 0 to 2^2n - 1.</summary>
    public static Record Wait(RecordWidth width, int tenths, bool rise = false) =>
        new(Verb.Wait, Head.A, 0, rise, 0, 0, High(width, tenths), Low(width, tenths));

    /// <summary>Holds until the operator goes on.</summary>
    public static Record WaitForOperator(bool rise = false) => new(Verb.Wait, Head.A, 1, rise, 0, 0, 0, 0);

    /// <summary>The number in p and q: p·2^n + q.</summary>
    public int PairPq(RecordWidth width) => (P << width.AxisBits) | Q;

    /// <summary>The number in x and y: x·2^n + y.</summary>
    public int PairXy(RecordWidth width) => (X << width.AxisBits) | Y;

    private static int High(RecordWidth width, int pair) => pair >> width.AxisBits;

    private static int Low(RecordWidth width, int pair) => pair & (width.Places - 1);
}
