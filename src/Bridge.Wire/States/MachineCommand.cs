namespace Bridge.Wire;

/// <summary>The ten commands, numbered as ISA-TR88.00.02 numbers them.</summary>
public enum MachineCommand : byte
{
    /// <summary>Not a command: an unset value. It is never accepted.</summary>
    Undefined = 0,

    /// <summary>Reference the axes and get ready: from Stopped or Complete to Idle.</summary>
    Reset = 1,

    /// <summary>Begin to execute the run: from Idle to Execute.</summary>
    Start = 2,

    /// <summary>End the run with a controlled stop.</summary>
    Stop = 3,

    /// <summary>Stop after the present cell and keep the run alive.</summary>
    Hold = 4,

    /// <summary>Go on from Held.</summary>
    Unhold = 5,

    /// <summary>Wait for something outside the machine.</summary>
    Suspend = 6,

    /// <summary>Go on from Suspended.</summary>
    Unsuspend = 7,

    /// <summary>Stop at once, drivers off.</summary>
    Abort = 8,

    /// <summary>Leave Aborted for Stopped, once the cause of the abort is gone.</summary>
    Clear = 9,

    /// <summary>End the run as complete.</summary>
    Complete = 10,
}
