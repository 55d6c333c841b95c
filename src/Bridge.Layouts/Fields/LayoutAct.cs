namespace Bridge.Layouts;

/// <summary>What a verb of a layout does. A machine has some of these.</summary>
public enum LayoutAct
{
    /// <summary>The job is complete.</summary>
    End,

    /// <summary>Moves idle to a place.</summary>
    Go,

    /// <summary>Moves idle back to (0, 0).</summary>
    Base,

    /// <summary>Moves idle a number of cells along a heading.</summary>
    Step,

    /// <summary>Moves idle to a place and works that cell.</summary>
    Dot,

    /// <summary>Moves idle to a place, then works cells from there along a heading.</summary>
    Row,

    /// <summary>Moves idle to a place, then works a rectangle from that corner, back and forth.</summary>
    Patch,

    /// <summary>Moves idle to a place, then works a square from that corner, back and forth.</summary>
    Square,

    /// <summary>Works a straight line to a place, without the cell it starts on.</summary>
    Line,

    /// <summary>Does the last records again.</summary>
    Again,

    /// <summary>Goes up one layer.</summary>
    Rise,

    /// <summary>Selects a head.</summary>
    Head,

    /// <summary>Waits for a time.</summary>
    Wait,

    /// <summary>Holds until the operator goes on.</summary>
    Hold,
}
