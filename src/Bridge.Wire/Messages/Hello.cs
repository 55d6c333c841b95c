using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: opens a session, or asks for the same Welcome again. Its first three octets stay the same in every version.</summary>
/// <param name="WireVersion">The host's wire version.</param>
/// <param name="Token">Chosen at random by the host; its low octet is the session octet of every frame.</param>
public readonly record struct Hello(byte WireVersion, ushort Token) : IMessage
{
    /// <summary>The wire version that this library speaks.</summary>
    public const byte CurrentVersion = 1;

    /// <summary>Octets of the body.</summary>
    public const int Length = 3;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Hello;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = WireVersion;
        BinaryPrimitives.WriteUInt16BigEndian(body[1..], Token);
        return Length;
    }

    /// <summary>Reads a body; octets after the first three, which another version may add, are ignored. False if it is too short.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Hello message)
    {
        message = default;
        if (body.Length < Length)
            return false;
        message = new Hello(body[0], BinaryPrimitives.ReadUInt16BigEndian(body[1..]));
        return true;
    }
}
