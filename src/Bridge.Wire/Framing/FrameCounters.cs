namespace Bridge.Wire;

/// <summary>What a decoder has seen. Each frame between flags counts once; nothing between two flags is no frame.</summary>
public readonly record struct FrameCounters
{
    /// <summary>Frames handed on.</summary>
    public long Good { get; init; }

    /// <summary>Frames whose check sequence did not match.</summary>
    public long BadFcs { get; init; }

    /// <summary>Frames of fewer octets than <see cref="FrameFormat.MinContent"/>.</summary>
    public long TooShort { get; init; }

    /// <summary>Frames of more octets than <see cref="FrameFormat.MaxContent"/>.</summary>
    public long TooLong { get; init; }

    /// <summary>Frames that ended in an escape and a flag.</summary>
    public long Aborted { get; init; }

    /// <summary>Frames with a bare 7F in them, or with an octet that the receiver lost or misread.</summary>
    public long Spoiled { get; init; }

    /// <summary>Octets that completed a STOP.</summary>
    public long Stops { get; init; }
}
