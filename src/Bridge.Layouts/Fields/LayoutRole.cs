namespace Bridge.Layouts;

/// <summary>What a number in a record means to the verb.</summary>
public enum LayoutRole
{
    /// <summary>A place along X: from 0, or how far from where the head stands.</summary>
    X,

    /// <summary>A place along Y: from 0, or how far from where the head stands.</summary>
    Y,

    /// <summary>The head: 0 is a, 1 is b. Without it the head stays.</summary>
    Head,

    /// <summary>1 goes up one layer before the verb acts.</summary>
    Rise,

    /// <summary>A direction: a place in the layout's list of headings.</summary>
    Heading,

    /// <summary>1 where the heading goes along X.</summary>
    StepX,

    /// <summary>1 where X falls.</summary>
    SignX,

    /// <summary>1 where the heading goes along Y.</summary>
    StepY,

    /// <summary>1 where Y falls.</summary>
    SignY,

    /// <summary>1 where the rows of a rectangle run along Y.</summary>
    AlongY,

    /// <summary>Bit 0: rows run along Y; bit 1: X falls; bit 2: Y falls.</summary>
    Way,

    /// <summary>Cells of a row or a step.</summary>
    Count,

    /// <summary>Cells of a rectangle along X.</summary>
    SizeX,

    /// <summary>Cells of a rectangle along Y.</summary>
    SizeY,

    /// <summary>Cells of a square along each side.</summary>
    Size,

    /// <summary>How many records are done again.</summary>
    Reach,

    /// <summary>How many more times they are done.</summary>
    Times,

    /// <summary>Tenths of a second.</summary>
    Tenths,
}
