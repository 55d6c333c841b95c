namespace Bridge.Serial;

/// <summary>The way out of an open port. Used by one thread at a time.</summary>
internal interface IPortOutput : IDisposable
{
    /// <summary>Hands the system as many octets as it takes at once, and returns how many: 0 if it takes none now. Never waits.</summary>
    /// <exception cref="IOException">The port is gone.</exception>
    int Write(ReadOnlySpan<byte> octets);

    /// <summary>True when all that was handed over is with the system.</summary>
    bool IsIdle { get; }

    /// <summary>Completes when it is worth trying again, or idle. Never fails.</summary>
    Task RoomAsync();

    /// <summary>To be called before the system is told to drop what it has not sent: that may end a write that is under way, and is no trouble.</summary>
    void ForgetWhatWaits();
}
