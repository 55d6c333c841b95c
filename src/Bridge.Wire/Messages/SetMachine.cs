using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: the machine as a whole. Accepted in Stopped, Aborted and Idle; the axes lose their reference.</summary>
public readonly record struct SetMachine : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 21;

    /// <summary>Bits of one axis coordinate in a record: 4, 8 or 12.</summary>
    public required byte AxisBits { get; init; }

    /// <summary>Axes that move: 2 (X, Y) or 3 (X, Y, Z).</summary>
    public required byte Axes { get; init; }

    /// <summary>Heads: 1 or 2.</summary>
    public required byte Heads { get; init; }

    /// <summary>How long the board may hear nothing while it moves, in ms, before it holds: 1 to 65535.</summary>
    public required ushort LineTimeoutMs { get; init; }

    /// <summary>How long a change of head takes, in ms.</summary>
    public required ushort HeadChangeMs { get; init; }

    /// <summary>Cells along X: 1 to 2 to the power of <see cref="AxisBits"/>.</summary>
    public required ushort CellsX { get; init; }

    /// <summary>Cells along Y: 1 to 2 to the power of <see cref="AxisBits"/>.</summary>
    public required ushort CellsY { get; init; }

    /// <summary>Layers: 1 to 65535.</summary>
    public required ushort Layers { get; init; }

    /// <summary>Which machine file this is from.</summary>
    public required DigestPrefix Digest { get; init; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.SetMachine;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = AxisBits;
        body[1] = Axes;
        body[2] = Heads;
        BinaryPrimitives.WriteUInt16BigEndian(body[3..], LineTimeoutMs);
        BinaryPrimitives.WriteUInt16BigEndian(body[5..], HeadChangeMs);
        BinaryPrimitives.WriteUInt16BigEndian(body[7..], CellsX);
        BinaryPrimitives.WriteUInt16BigEndian(body[9..], CellsY);
        BinaryPrimitives.WriteUInt16BigEndian(body[11..], Layers);
        BinaryPrimitives.WriteUInt64BigEndian(body[13..], Digest.Value);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out SetMachine message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new SetMachine
        {
            AxisBits = body[0],
            Axes = body[1],
            Heads = body[2],
            LineTimeoutMs = BinaryPrimitives.ReadUInt16BigEndian(body[3..]),
            HeadChangeMs = BinaryPrimitives.ReadUInt16BigEndian(body[5..]),
            CellsX = BinaryPrimitives.ReadUInt16BigEndian(body[7..]),
            CellsY = BinaryPrimitives.ReadUInt16BigEndian(body[9..]),
            Layers = BinaryPrimitives.ReadUInt16BigEndian(body[11..]),
            Digest = new DigestPrefix(BinaryPrimitives.ReadUInt64BigEndian(body[13..])),
        };
        return message.IsInRange();
    }

    private bool IsInRange() => AxisBits is 4 or 8 or 12 && Axes is 2 or 3 && Heads is 1 or 2 && LineTimeoutMs > 0
        && CellsX > 0 && CellsX <= 1 << AxisBits && CellsY > 0 && CellsY <= 1 << AxisBits && Layers > 0;
}
