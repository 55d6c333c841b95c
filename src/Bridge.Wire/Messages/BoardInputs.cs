namespace Bridge.Wire;

/// <summary>What the board sees, and which axes it has referenced.</summary>
[Flags]
public enum BoardInputs : byte
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>The e-stop contact is open: pressed, or its wire is cut.</summary>
    EStopOpen = 0x01,

    /// <summary>X is at its endstop, or the wire is cut.</summary>
    EndstopX = 0x02,

    /// <summary>Y is at its endstop, or the wire is cut.</summary>
    EndstopY = 0x04,

    /// <summary>Z is at its endstop, or the wire is cut.</summary>
    EndstopZ = 0x08,

    /// <summary>The board's start button is pressed.</summary>
    StartButton = 0x10,

    /// <summary>X is referenced.</summary>
    ReferencedX = 0x20,

    /// <summary>Y is referenced.</summary>
    ReferencedY = 0x40,

    /// <summary>Z is referenced.</summary>
    ReferencedZ = 0x80,
}
