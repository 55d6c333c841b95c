namespace Bridge.Wire;

/// <summary>The first octet of every frame: what its body is. The top bit is set in what the board sends.</summary>
public enum MessageType : byte
{
    /// <summary>Not a message: an unset value.</summary>
    Undefined = 0x00,

    /// <summary>Host: opens a session. Unnumbered.</summary>
    Hello = 0x01,

    /// <summary>Host: a sign of life. Unnumbered.</summary>
    Beat = 0x02,

    /// <summary>Host: the machine as a whole.</summary>
    SetMachine = 0x03,

    /// <summary>Host: one axis.</summary>
    SetAxis = 0x04,

    /// <summary>Host: one head.</summary>
    SetHead = 0x05,

    /// <summary>Host: a run begins.</summary>
    Begin = 0x06,

    /// <summary>Host: a command to the state machine.</summary>
    Command = 0x07,

    /// <summary>Host: records of the run.</summary>
    Records = 0x08,

    /// <summary>Host: a job is going to be written into the board's store.</summary>
    StoreBegin = 0x09,

    /// <summary>Host: octets of the job that is being written.</summary>
    StoreData = 0x0A,

    /// <summary>Host: the job that was written is whole.</summary>
    StoreCommit = 0x0B,

    /// <summary>Host: asks for octets of the stored job.</summary>
    StoreRead = 0x0C,

    /// <summary>Host: a run of the stored job begins.</summary>
    BeginStored = 0x0D,

    /// <summary>Host: leave to move one axis for a moment. Unnumbered.</summary>
    Jog = 0x0E,

    /// <summary>Host: asks what the count was when the axes were last referenced.</summary>
    ReferenceRead = 0x0F,

    /// <summary>Board: the answer to Hello.</summary>
    Welcome = 0x81,

    /// <summary>Board: all that it knows of itself, as absolute values.</summary>
    Status = 0x82,

    /// <summary>Board: octets of the stored job.</summary>
    Stored = 0x83,

    /// <summary>Board: what the count was when the axes were last referenced.</summary>
    References = 0x84,
}
