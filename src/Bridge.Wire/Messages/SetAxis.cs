using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Host: one axis. Accepted in Stopped, Aborted and Idle; the axes lose their reference.</summary>
public readonly record struct SetAxis : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 24;

    /// <summary>0 X, 1 Y, 2 Z.</summary>
    public required byte Axis { get; init; }

    /// <summary>True if the endstop is beyond the last cell, false if it is before cell 0. Flags bit 0; the other bits are zero.</summary>
    public required bool EndstopAtMax { get; init; }

    /// <summary>Steps from one cell to the next in 1/65536 step, 1 or more: cell k is at (k times this + 0x8000) >> 16 steps.</summary>
    public required uint StepsPerCellQ16 { get; init; }

    /// <summary>Top speed in steps/s, 1 or more.</summary>
    public required uint TopSpeed { get; init; }

    /// <summary>Acceleration in steps/s2, 1 or more.</summary>
    public required uint Acceleration { get; init; }

    /// <summary>Speed while referencing in steps/s, 1 or more and at most the top speed.</summary>
    public required uint ReferenceSpeed { get; init; }

    /// <summary>Steps from the point where the endstop closes to the centre of the cell nearest to it.</summary>
    public required uint EndstopGapSteps { get; init; }

    /// <summary>Steps lost when the direction changes.</summary>
    public required ushort BacklashSteps { get; init; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.SetAxis;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = Axis;
        body[1] = (byte)(EndstopAtMax ? 1 : 0);
        BinaryPrimitives.WriteUInt32BigEndian(body[2..], StepsPerCellQ16);
        BinaryPrimitives.WriteUInt32BigEndian(body[6..], TopSpeed);
        BinaryPrimitives.WriteUInt32BigEndian(body[10..], Acceleration);
        BinaryPrimitives.WriteUInt32BigEndian(body[14..], ReferenceSpeed);
        BinaryPrimitives.WriteUInt32BigEndian(body[18..], EndstopGapSteps);
        BinaryPrimitives.WriteUInt16BigEndian(body[22..], BacklashSteps);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out SetAxis message)
    {
        message = default;
        if (body.Length != Length || body[1] > 1)
            return false;
        message = new SetAxis
        {
            Axis = body[0],
            EndstopAtMax = body[1] == 1,
            StepsPerCellQ16 = BinaryPrimitives.ReadUInt32BigEndian(body[2..]),
            TopSpeed = BinaryPrimitives.ReadUInt32BigEndian(body[6..]),
            Acceleration = BinaryPrimitives.ReadUInt32BigEndian(body[10..]),
            ReferenceSpeed = BinaryPrimitives.ReadUInt32BigEndian(body[14..]),
            EndstopGapSteps = BinaryPrimitives.ReadUInt32BigEndian(body[18..]),
            BacklashSteps = BinaryPrimitives.ReadUInt16BigEndian(body[22..]),
        };
        return message.IsInRange();
    }

    private bool IsInRange() => Axis <= 2 && StepsPerCellQ16 > 0 && TopSpeed > 0 && Acceleration > 0
        && ReferenceSpeed > 0 && ReferenceSpeed <= TopSpeed;
}
