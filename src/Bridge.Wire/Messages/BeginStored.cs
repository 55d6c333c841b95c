using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: a run of the stored job begins. Accepted in Idle alone; it zeroes the board's counters.</summary>
/// <param name="RunId">The host's number for the run; zero means no run and is refused.</param>
public readonly record struct BeginStored(ushort RunId) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 2;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.BeginStored;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, RunId);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out BeginStored message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new BeginStored(BinaryPrimitives.ReadUInt16BigEndian(body));
        return message.RunId > 0;
    }
}
