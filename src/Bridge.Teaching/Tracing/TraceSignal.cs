namespace Bridge.Teaching;

/// <summary>The lines of a trace, in the order in which they are listed.</summary>
public enum TraceSignal
{
    /// <summary>A step of X: high for <see cref="SignalTrace.PulseTicks"/> or half of the shortest interval.</summary>
    StepX,

    /// <summary>A step of Y.</summary>
    StepY,

    /// <summary>A step of Z.</summary>
    StepZ,

    /// <summary>The direction of X: 1 grows.</summary>
    DirX,

    /// <summary>The direction of Y: 1 grows.</summary>
    DirY,

    /// <summary>The direction of Z: 1 grows.</summary>
    DirZ,

    /// <summary>The head: 0 is a.</summary>
    Head,

    /// <summary>Whether the head works: a pen is down, or a dot takes its time.</summary>
    Work,

    /// <summary>Whether the endstop of X is closed.</summary>
    EndX,

    /// <summary>Whether the endstop of Y is closed.</summary>
    EndY,

    /// <summary>Whether the endstop of Z is closed.</summary>
    EndZ,

    /// <summary>Whether the e-stop is open: pressed, or its wire cut.</summary>
    EStop,

    /// <summary>The record of the image that is being done.</summary>
    Record,

    /// <summary>Cells left of that record.</summary>
    Counter,

    /// <summary>The machine's state, by its number in ISA-TR88.00.02: 6 is Execute.</summary>
    State,

    /// <summary>The present cell along X.</summary>
    X,

    /// <summary>The present cell along Y.</summary>
    Y,

    /// <summary>The present layer.</summary>
    Layer,
}
