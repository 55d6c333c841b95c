namespace Bridge.Wire;

/// <summary>Why the board is in its state. An acting state hands its cause on to the state that follows it.</summary>
public enum StateCause : byte
{
    /// <summary>Nothing in particular.</summary>
    None = 0,

    /// <summary>The board began from the beginning.</summary>
    PowerOn = 1,

    /// <summary>A command from the host.</summary>
    Operator = 2,

    /// <summary>The e-stop input is open: pressed, or its wire is cut.</summary>
    EStop = 3,

    /// <summary>STOP octets arrived.</summary>
    StopOctets = 4,

    /// <summary>An endstop closed in motion.</summary>
    EndstopHit = 5,

    /// <summary>The board no longer knows where an axis is.</summary>
    LostReference = 6,

    /// <summary>The board heard nothing from the host for the line time-out while it moved.</summary>
    LineSilent = 7,

    /// <summary>The queue ran out of records before the run's end.</summary>
    Starved = 8,

    /// <summary>A record could not be executed: it is not valid or leads out of the grid.</summary>
    BadRecord = 9,

    /// <summary>An axis did not find its endstop, or did not leave it.</summary>
    ReferenceFailed = 10,

    /// <summary>The run's last record is done.</summary>
    JobComplete = 11,

    /// <summary>The firmware hung and its watchdog bit.</summary>
    Watchdog = 12,

    /// <summary>A new session began while the board moved.</summary>
    HostRestarted = 13,

    /// <summary>A record told the board to hold until the operator goes on.</summary>
    OperatorWait = 14,

    /// <summary>The firmware found itself in a state that cannot be.</summary>
    FirmwareFault = 15,

    /// <summary>The start button asked for a job and none is stored.</summary>
    StoreBlank = 16,

    /// <summary>The start button asked for a job and what is stored is damaged.</summary>
    StoreDamaged = 17,

    /// <summary>The start button asked for a job and what is stored is none.</summary>
    StoreForeign = 18,
}
