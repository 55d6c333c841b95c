using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: the image is whole; from now on it is the stored job.</summary>
/// <param name="ImageFcs">The check sequence over the image, as <see cref="Fcs16"/> gives it.</param>
public readonly record struct StoreCommit(ushort ImageFcs) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 2;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.StoreCommit;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, ImageFcs);
        return Length;
    }

    /// <summary>Reads a body; false if its length is another.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out StoreCommit message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new StoreCommit(BinaryPrimitives.ReadUInt16BigEndian(body));
        return true;
    }
}
