using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: a job is going to be written into the board's store, for the machine that has been set.</summary>
/// <param name="ImageLength">Octets of the image: 1 or more, at most what Welcome says the store holds.</param>
public readonly record struct StoreBegin(ushort ImageLength) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 2;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.StoreBegin;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, ImageLength);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out StoreBegin message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new StoreBegin(BinaryPrimitives.ReadUInt16BigEndian(body));
        return message.ImageLength > 0;
    }
}
