using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: asks for octets of the stored job. The board answers with <see cref="Stored"/>, then with its Status.</summary>
/// <param name="Offset">The first octet of the image, from 0.</param>
/// <param name="Count">How many, 1 to <see cref="Stored.MaxOctets"/>, all of them within the image.</param>
public readonly record struct StoreRead(ushort Offset, byte Count) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 3;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.StoreRead;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, Offset);
        body[2] = Count;
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out StoreRead message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new StoreRead(BinaryPrimitives.ReadUInt16BigEndian(body), body[2]);
        return message.Count is >= 1 and <= Stored.MaxOctets;
    }
}
