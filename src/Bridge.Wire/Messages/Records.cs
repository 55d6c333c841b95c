using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: records of the run, whole and back to back. The wire does not look into them.</summary>
public readonly ref struct Records : IMessage
{
    /// <summary>Octets before the records.</summary>
    public const int PrefixLength = 4;

    /// <summary>Most octets of records in one message.</summary>
    public const int MaxOctets = FrameFormat.MaxBody - PrefixLength;

    /// <summary>Records from <paramref name="octets"/>, 1 to <see cref="MaxOctets"/> of them.</summary>
    public Records(uint firstIndex, ReadOnlySpan<byte> octets)
    {
        ArgumentOutOfRangeException.ThrowIfZero(octets.Length);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(octets.Length, MaxOctets);
        FirstIndex = firstIndex;
        Octets = octets;
    }

    /// <summary>The first record's index in the run, from 0: the number of records before it.</summary>
    public uint FirstIndex { get; }

    /// <summary>The records' octets, as they stand in the image.</summary>
    public ReadOnlySpan<byte> Octets { get; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Records;

    /// <summary>How many records of <paramref name="recordLength"/> octets (3, 5 or 7) fit into one message: 18, 11 or 7.</summary>
    public static int MaxCount(int recordLength)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(recordLength);
        return MaxOctets / recordLength;
    }

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt32BigEndian(body, FirstIndex);
        Octets.CopyTo(body[PrefixLength..]);
        return PrefixLength + Octets.Length;
    }

    /// <summary>Reads a body, whose octets the message then refers to; false if it holds no record octet or is too long.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Records message)
    {
        message = default;
        if (body.Length is <= PrefixLength or > FrameFormat.MaxBody)
            return false;
        message = new Records(BinaryPrimitives.ReadUInt32BigEndian(body), body[PrefixLength..]);
        return true;
    }
}
