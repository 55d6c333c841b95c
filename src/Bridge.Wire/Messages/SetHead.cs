using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>What kind of head works the cells.</summary>
public enum HeadKind : byte
{
    /// <summary>Deposits a dot in each cell while it stands still.</summary>
    Dot = 0,

    /// <summary>A pen that is lowered, drawn over cells and lifted.</summary>
    Pen = 1,
}

/// <summary>Host: one head. Accepted in Stopped, Aborted and Idle; the axes lose their reference.</summary>
public readonly record struct SetHead : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 14;

    /// <summary>0 head a, 1 head b.</summary>
    public required byte Head { get; init; }

    /// <summary>Dot or pen.</summary>
    public required HeadKind Kind { get; init; }

    /// <summary>Dot: time per cell. Pen: time to lower. In ms.</summary>
    public required ushort FirstMs { get; init; }

    /// <summary>Dot: zero. Pen: time to lift, in ms.</summary>
    public required ushort SecondMs { get; init; }

    /// <summary>Where the head is along X, in steps, from the machine's own position.</summary>
    public required int OffsetXSteps { get; init; }

    /// <summary>Where the head is along Y, in steps, from the machine's own position.</summary>
    public required int OffsetYSteps { get; init; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.SetHead;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = Head;
        body[1] = (byte)Kind;
        BinaryPrimitives.WriteUInt16BigEndian(body[2..], FirstMs);
        BinaryPrimitives.WriteUInt16BigEndian(body[4..], SecondMs);
        BinaryPrimitives.WriteInt32BigEndian(body[6..], OffsetXSteps);
        BinaryPrimitives.WriteInt32BigEndian(body[10..], OffsetYSteps);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out SetHead message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new SetHead
        {
            Head = body[0],
            Kind = (HeadKind)body[1],
            FirstMs = BinaryPrimitives.ReadUInt16BigEndian(body[2..]),
            SecondMs = BinaryPrimitives.ReadUInt16BigEndian(body[4..]),
            OffsetXSteps = BinaryPrimitives.ReadInt32BigEndian(body[6..]),
            OffsetYSteps = BinaryPrimitives.ReadInt32BigEndian(body[10..]),
        };
        return message.IsInRange();
    }

    private bool IsInRange() => Head <= 1 && Kind switch
    {
        HeadKind.Dot => SecondMs == 0,
        HeadKind.Pen => true,
        _ => false,
    };
}
