namespace Bridge.Wire;

/// <summary>The board's answer to a message: accepted, or why not. A refused message changes nothing.</summary>
public enum Answer : byte
{
    /// <summary>Accepted.</summary>
    Accepted = 0,

    /// <summary>The type octet is none that this version knows.</summary>
    UnknownMessage = 1,

    /// <summary>The body's length or one of its values is outside its range.</summary>
    BadValue = 2,

    /// <summary>The message or command is not allowed in the present state.</summary>
    WrongState = 3,

    /// <summary>The machine, an axis or a head has not been set since the board last reset.</summary>
    NoSetup = 4,

    /// <summary>The board cannot execute records of this axis width.</summary>
    WrongWidth = 5,

    /// <summary>The board cannot make steps that fast.</summary>
    SpeedTooHigh = 6,

    /// <summary>The cause of the abort is still there: release it first.</summary>
    CausePresent = 7,

    /// <summary>An axis is not referenced.</summary>
    NotReferenced = 8,

    /// <summary>No run has begun.</summary>
    NoRun = 9,

    /// <summary>The first record's index is not the number of records taken so far.</summary>
    IndexMismatch = 10,

    /// <summary>More records than the credit allows.</summary>
    QueueOverrun = 11,

    /// <summary>More records than the run was said to have.</summary>
    BeyondRun = 12,

    /// <summary>A record is not valid, or is one that a board does not take from the line.</summary>
    BadRecord = 13,

    /// <summary>The store is still being written: say it again.</summary>
    StoreBusy = 14,

    /// <summary>More octets than the store or the image has.</summary>
    StoreFull = 15,

    /// <summary>No job is stored, or there is no store.</summary>
    StoreBlank = 16,

    /// <summary>The check sequence of what is stored does not match.</summary>
    StoreDamaged = 17,

    /// <summary>What is stored is no job, or one for another machine.</summary>
    StoreForeign = 18,
}
