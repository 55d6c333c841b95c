namespace Bridge.Motion;

/// <summary>The kinds of act.</summary>
public enum ActKind
{
    /// <summary>Nothing to do.</summary>
    None,

    /// <summary>The pen is lifted.</summary>
    LiftPen,

    /// <summary>Z goes up by one layer.</summary>
    Rise,

    /// <summary>The head in use is changed.</summary>
    ChangeHead,

    /// <summary>Axes that turn take up their play; the carriage stays where it is.</summary>
    TakeUp,

    /// <summary>The carriage moves straight without working.</summary>
    IdleMove,

    /// <summary>The pen is lowered.</summary>
    LowerPen,

    /// <summary>
    /// The pen passes over cells in one straight move. Without a distance: it works the cell that it stands on.
    /// </summary>
    WorkMove,

    /// <summary>
    /// Cell after cell, a move of one cell and the time that a dot takes. Without a distance: a dot where it stands.
    /// </summary>
    WorkDots,

    /// <summary>Waits for a time.</summary>
    Wait,

    /// <summary>Holds until the operator goes on; takes no time that could be predicted.</summary>
    HoldForOperator,
}
