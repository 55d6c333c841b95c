namespace Bridge.Jobs;

/// <summary>What a record does; the three highest bits of its opcode.</summary>
public enum Verb : byte
{
    /// <summary>The job is complete. All bits zero, so blank memory reads as the end.</summary>
    End = 0,

    /// <summary>Moves idle to (x, y).</summary>
    Go = 1,

    /// <summary>Moves idle to (x, y), then works cells from there along a heading.</summary>
    Row = 2,

    /// <summary>Works a rectangle from the corner (x, y), back and forth.</summary>
    Patch = 3,

    /// <summary>Works a straight line from the present cell to (x, y), without the cell it starts on.</summary>
    Line = 4,

    /// <summary>Does the last records again.</summary>
    Again = 5,

    /// <summary>Waits for a time, or until the operator goes on.</summary>
    Wait = 6,

    /// <summary>Never valid: erased memory is a fault, not a move.</summary>
    None = 7,
}
