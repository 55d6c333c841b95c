using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: octets of the image that is being written. A store that is busy is told again.</summary>
public readonly ref struct StoreData : IMessage
{
    /// <summary>Octets before those of the image.</summary>
    public const int PrefixLength = 2;

    /// <summary>Most octets of the image in one message.</summary>
    public const int MaxOctets = 55;

    /// <summary>Octets of the image, 1 to <see cref="MaxOctets"/> of them, from an offset on.</summary>
    public StoreData(ushort offset, ReadOnlySpan<byte> octets)
    {
        ArgumentOutOfRangeException.ThrowIfZero(octets.Length);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(octets.Length, MaxOctets);
        Offset = offset;
        Octets = octets;
    }

    /// <summary>The octets of the image before these.</summary>
    public ushort Offset { get; }

    /// <summary>Octets of the image.</summary>
    public ReadOnlySpan<byte> Octets { get; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.StoreData;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, Offset);
        Octets.CopyTo(body[PrefixLength..]);
        return PrefixLength + Octets.Length;
    }

    /// <summary>Reads a body, whose octets the message then refers to; false if it holds none or too many.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out StoreData message)
    {
        message = default;
        if (body.Length is <= PrefixLength or > PrefixLength + MaxOctets)
            return false;
        message = new StoreData(BinaryPrimitives.ReadUInt16BigEndian(body), body[PrefixLength..]);
        return true;
    }
}
