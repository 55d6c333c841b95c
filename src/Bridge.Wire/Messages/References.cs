using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Axes of a machine, a bit each.</summary>
[Flags]
public enum BoardAxes : byte
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>X.</summary>
    X = 1,

    /// <summary>Y.</summary>
    Y = 2,

    /// <summary>Z.</summary>
    Z = 4,

    /// <summary>All three.</summary>
    All = X | Y | Z,
}

/// <summary>
/// Board: where each axis was by the board's count at the moment when its endstop closed, the last time the axes were referenced. A
/// machine that has lost no steps counts just to where its endstop closes, and by its play too far where that had to be taken up.
/// </summary>
public readonly record struct References : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 14;

    /// <summary>Axes that had been referenced before and held by their motors since: only their counts mean something.</summary>
    public required BoardAxes Known { get; init; }

    /// <summary>Axes whose last move before had gone up, away from cell 0.</summary>
    public required BoardAxes WentUp { get; init; }

    /// <summary>The count of X, in steps from cell 0.</summary>
    public required int X { get; init; }

    /// <summary>The count of Y, in steps from cell 0.</summary>
    public required int Y { get; init; }

    /// <summary>The count of Z, in steps from layer 0; 0 on a machine without.</summary>
    public required int Z { get; init; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.References;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        (body[0], body[1]) = ((byte)Known, (byte)WentUp);
        BinaryPrimitives.WriteInt32BigEndian(body[2..], X);
        BinaryPrimitives.WriteInt32BigEndian(body[6..], Y);
        BinaryPrimitives.WriteInt32BigEndian(body[10..], Z);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out References message)
    {
        message = default;
        if (body.Length != Length || body[0] > (byte)BoardAxes.All || body[1] > (byte)BoardAxes.All)
            return false;
        message = new References
        {
            Known = (BoardAxes)body[0],
            WentUp = (BoardAxes)body[1],
            X = BinaryPrimitives.ReadInt32BigEndian(body[2..]),
            Y = BinaryPrimitives.ReadInt32BigEndian(body[6..]),
            Z = BinaryPrimitives.ReadInt32BigEndian(body[10..]),
        };
        return true;
    }
}
