namespace Bridge.Jobs;

/// <summary>The rules that a job is held to.</summary>
public enum JobRule
{
    /// <summary>Verb 7 is never valid.</summary>
    VerbNone,

    /// <summary>Bits that a verb does not use are zero.</summary>
    ReservedBits,

    /// <summary>Every cell lies on the grid.</summary>
    OffGrid,

    /// <summary>No layer lies above the highest.</summary>
    AboveTopLayer,

    /// <summary>`again` may not reach before the first record.</summary>
    AgainBeforeFirst,

    /// <summary>`again` may not reach over another `again`.</summary>
    AgainOverAgain,

    /// <summary>The image fits the store.</summary>
    LargerThanStore,

    /// <summary>Only a full store may do without `end`.</summary>
    NoEnd,

    /// <summary>The job was planned with this machine file.</summary>
    OtherMachine,

    /// <summary>The job was planned for this machine's grid and record width.</summary>
    OtherGeometry,

    /// <summary>The machine has the head.</summary>
    NoSuchHead,

    /// <summary>Where overprint is forbidden, a cell is worked once.</summary>
    WorkedTwice,

    /// <summary>A job is executed in a bounded number of steps.</summary>
    TooLong,

    /// <summary>Every cell of the shape is worked.</summary>
    CellMissing,

    /// <summary>No other cell is worked.</summary>
    CellExtra,

    /// <summary>Each cell is worked by the head that the shape names.</summary>
    WrongHead,

    /// <summary>A cell has one below it within the overhang.</summary>
    Overhang,
}
