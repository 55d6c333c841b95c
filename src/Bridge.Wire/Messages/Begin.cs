using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: a run begins. Accepted in Idle alone; it zeroes the board's counters.</summary>
/// <param name="RunId">The host's number for the run; zero means no run and is refused.</param>
/// <param name="RecordCount">Records in the whole run, each `again` unrolled: 1 or more.</param>
public readonly record struct Begin(ushort RunId, uint RecordCount) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 6;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Begin;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, RunId);
        BinaryPrimitives.WriteUInt32BigEndian(body[2..], RecordCount);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Begin message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new Begin(BinaryPrimitives.ReadUInt16BigEndian(body), BinaryPrimitives.ReadUInt32BigEndian(body[2..]));
        return message is { RunId: > 0, RecordCount: > 0 };
    }
}
