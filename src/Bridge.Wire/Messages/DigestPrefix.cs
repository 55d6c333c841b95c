using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>The first eight octets of the digest of the machine file, as one number: the first octet is the most significant.</summary>
/// <param name="Value">The eight octets read big-endian.</param>
public readonly record struct DigestPrefix(ulong Value)
{
    /// <summary>Octets on the wire.</summary>
    public const int Length = 8;

    /// <summary>The start of a longer digest, which must be at least eight octets.</summary>
    public static DigestPrefix Of(ReadOnlySpan<byte> digest) => new(BinaryPrimitives.ReadUInt64BigEndian(digest));

    /// <summary>Sixteen hexadecimal digits.</summary>
    public override string ToString() => Value.ToString("x16", System.Globalization.CultureInfo.InvariantCulture);
}
