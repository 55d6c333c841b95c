namespace Bridge.Runs;

/// <summary>How a run ended.</summary>
public enum RunOutcome
{
    /// <summary>Every record was executed.</summary>
    Complete,

    /// <summary>It was stopped in a controlled way.</summary>
    Stopped,

    /// <summary>The machine stopped at once, motors off.</summary>
    Aborted,

    /// <summary>The device refused what it was asked.</summary>
    Refused,

    /// <summary>The device never answered.</summary>
    NoAnswer,

    /// <summary>The line was lost in the middle of the run.</summary>
    LineLost,

    /// <summary>The journal could not be written.</summary>
    JournalFailed,

    /// <summary>The machine held, and nobody was there to let it go on.</summary>
    HeldTooLong,

    /// <summary>Every record up to a change of layer was executed, and there the run was to end for now, so that the machine finds its zero anew.</summary>
    LayerDone,
}

/// <summary>How a run ended, in words.</summary>
/// <param name="Outcome">How.</param>
/// <param name="Words">What happened, and what the machine is doing now.</param>
/// <param name="WhatToDo">What a person can do next; may be empty.</param>
public sealed record RunEnd(RunOutcome Outcome, string Words, string WhatToDo);
