namespace Bridge.Wire;

/// <summary>The seventeen machine states, numbered as ISA-TR88.00.02 numbers them.</summary>
public enum MachineState : byte
{
    /// <summary>Not a state: an unset value. It never travels.</summary>
    Undefined = 0,

    /// <summary>Acting: the cause of the abort is gone and is being wiped away.</summary>
    Clearing = 1,

    /// <summary>Powered and still; the axes may have lost their reference.</summary>
    Stopped = 2,

    /// <summary>Acting: getting ready to execute.</summary>
    Starting = 3,

    /// <summary>Referenced and ready for a run.</summary>
    Idle = 4,

    /// <summary>The run waits for something outside the machine, such as more records.</summary>
    Suspended = 5,

    /// <summary>The run's records are being executed.</summary>
    Execute = 6,

    /// <summary>Acting: a controlled stop that ends the run.</summary>
    Stopping = 7,

    /// <summary>Acting: an immediate stop, drivers off.</summary>
    Aborting = 8,

    /// <summary>Drivers off; only Clear leaves this state.</summary>
    Aborted = 9,

    /// <summary>Acting: a controlled stop after the present cell; the run stays alive.</summary>
    Holding = 10,

    /// <summary>The run is held; Unhold goes on with nothing lost or repeated.</summary>
    Held = 11,

    /// <summary>Acting: getting ready to go on from Held.</summary>
    Unholding = 12,

    /// <summary>Acting: coming to rest because something outside is missing.</summary>
    Suspending = 13,

    /// <summary>Acting: getting ready to go on from Suspended.</summary>
    Unsuspending = 14,

    /// <summary>Acting: referencing the axes.</summary>
    Resetting = 15,

    /// <summary>Acting: the last record is done and the run is being closed.</summary>
    Completing = 16,

    /// <summary>The run is complete.</summary>
    Complete = 17,
}
