using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Board: octets of the stored job, as the host asked for them.</summary>
public readonly ref struct Stored : IMessage
{
    /// <summary>Octets before those of the image.</summary>
    public const int PrefixLength = 4;

    /// <summary>Most octets of the image in one message.</summary>
    public const int MaxOctets = 26;

    /// <summary>Octets of an image, 1 to <see cref="MaxOctets"/> of them, from an offset on.</summary>
    public Stored(ushort imageLength, ushort offset, ReadOnlySpan<byte> octets)
    {
        ArgumentOutOfRangeException.ThrowIfZero(octets.Length);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(octets.Length, MaxOctets);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(offset + octets.Length, imageLength);
        ImageLength = imageLength;
        Offset = offset;
        Octets = octets;
    }

    /// <summary>Octets of the whole image, 1 or more.</summary>
    public ushort ImageLength { get; }

    /// <summary>The octets of the image before these.</summary>
    public ushort Offset { get; }

    /// <summary>Octets of the image.</summary>
    public ReadOnlySpan<byte> Octets { get; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Stored;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, ImageLength);
        BinaryPrimitives.WriteUInt16BigEndian(body[2..], Offset);
        Octets.CopyTo(body[PrefixLength..]);
        return PrefixLength + Octets.Length;
    }

    /// <summary>Reads a body, whose octets the message then refers to; false if it holds none, too many, or some beyond the image.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Stored message)
    {
        message = default;
        if (body.Length is <= PrefixLength or > PrefixLength + MaxOctets)
            return false;
        var (length, offset) = (BinaryPrimitives.ReadUInt16BigEndian(body), BinaryPrimitives.ReadUInt16BigEndian(body[2..]));
        if (offset + body.Length - PrefixLength > length)
            return false;
        message = new Stored(length, offset, body[PrefixLength..]);
        return true;
    }
}
