using System.Buffers;

namespace Bridge.Wire;

/// <summary>Turns a frame into octets on the line: flag, content with check sequence, escaped, flag.</summary>
public static class FrameEncoder
{
    /// <summary>Encodes a frame of 3 to 62 octets (header and body); returns the octets written, at most <see cref="FrameFormat.MaxOnLine"/>.</summary>
    public static int Encode(ReadOnlySpan<byte> frame, Span<byte> line)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frame.Length, FrameFormat.MinContent - FrameFormat.FcsLength, nameof(frame));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(frame.Length, FrameFormat.MaxContent - FrameFormat.FcsLength, nameof(frame));
        var fcs = Fcs16.Of(frame);
        var length = 0;
        line[length++] = FrameFormat.Flag;
        foreach (var octet in frame)
            length += Put(octet, line[length..]);
        length += Put((byte)fcs, line[length..]);
        length += Put((byte)(fcs >> 8), line[length..]);
        line[length++] = FrameFormat.Flag;
        return length;
    }

    /// <summary>Encodes a frame of 3 to 62 octets onto the end of <paramref name="output"/>.</summary>
    public static void Encode(ReadOnlySpan<byte> frame, IBufferWriter<byte> output) =>
        output.Advance(Encode(frame, output.GetSpan(FrameFormat.MaxOnLine)));

    /// <summary>Encodes a message with its header onto the end of <paramref name="output"/>.</summary>
    public static void Encode<T>(byte session, byte number, in T message, IBufferWriter<byte> output)
        where T : struct, IMessage, allows ref struct
    {
        Span<byte> frame = stackalloc byte[FrameFormat.MaxContent];
        var length = FrameHeader.Compose(frame, session, number, message);
        Encode(frame[..length], output);
    }

    private static int Put(byte octet, Span<byte> line)
    {
        if (!FrameFormat.MustEscape(octet))
        {
            line[0] = octet;
            return 1;
        }
        line[0] = FrameFormat.Escape;
        line[1] = (byte)(octet ^ FrameFormat.Flip);
        return 2;
    }
}
