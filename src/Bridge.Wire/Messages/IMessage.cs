namespace Bridge.Wire;

/// <summary>A message's body as fields. Every multi-octet number is big-endian on the wire.</summary>
public interface IMessage
{
    /// <summary>The type octet that stands before the body.</summary>
    static abstract MessageType Type { get; }

    /// <summary>Writes the body and returns its length in octets, at most <see cref="FrameFormat.MaxBody"/>.</summary>
    int Write(Span<byte> body);
}
