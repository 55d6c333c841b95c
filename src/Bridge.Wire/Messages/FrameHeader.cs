namespace Bridge.Wire;

/// <summary>What stands before a body.</summary>
/// <param name="Type">What the body is.</param>
/// <param name="Session">Low octet of the session's token.</param>
/// <param name="Number">From the host: the message's sequence number, or the next one if unnumbered. From the board: the next number that it expects.</param>
public readonly record struct FrameHeader(MessageType Type, byte Session, byte Number)
{
    /// <summary>Splits a frame (content without check sequence) into header and body; false if it is too short or too long.</summary>
    public static bool TryRead(ReadOnlySpan<byte> frame, out FrameHeader header, out ReadOnlySpan<byte> body)
    {
        header = default;
        body = default;
        if (frame.Length is < FrameFormat.HeaderLength or > FrameFormat.HeaderLength + FrameFormat.MaxBody)
            return false;
        header = new FrameHeader((MessageType)frame[0], frame[1], frame[2]);
        body = frame[FrameFormat.HeaderLength..];
        return true;
    }

    /// <summary>Writes the header and the message's body; returns the frame's length in octets, without check sequence.</summary>
    public static int Compose<T>(Span<byte> frame, byte session, byte number, in T message)
        where T : struct, IMessage, allows ref struct
    {
        frame[0] = (byte)T.Type;
        frame[1] = session;
        frame[2] = number;
        return FrameFormat.HeaderLength + message.Write(frame[FrameFormat.HeaderLength..]);
    }
}
