using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Which axis widths a board can execute.</summary>
[Flags]
public enum AxisWidths : byte
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>4 bits: records of 3 octets.</summary>
    Four = 1,

    /// <summary>8 bits: records of 5 octets.</summary>
    Eight = 2,

    /// <summary>12 bits: records of 7 octets.</summary>
    Twelve = 4,
}

/// <summary>Why the board last began from the beginning.</summary>
public enum ResetReason : byte
{
    /// <summary>The board cannot tell.</summary>
    Unknown = 0,

    /// <summary>Power came on.</summary>
    PowerOn = 1,

    /// <summary>The reset pin, which on many boards a host pulls when it opens the port.</summary>
    ExternalReset = 2,

    /// <summary>The supply sagged.</summary>
    BrownOut = 3,

    /// <summary>The firmware hung and its watchdog bit.</summary>
    Watchdog = 4,
}

/// <summary>Board: the answer to Hello. Its first three octets stay the same in every version.</summary>
public readonly record struct Welcome : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 12;

    /// <summary>The token of the Hello that is answered.</summary>
    public required ushort Token { get; init; }

    /// <summary>The board's wire version.</summary>
    public required byte WireVersion { get; init; }

    /// <summary>The firmware's major version.</summary>
    public required byte FirmwareMajor { get; init; }

    /// <summary>The firmware's minor version.</summary>
    public required byte FirmwareMinor { get; init; }

    /// <summary>The axis widths that the board can execute.</summary>
    public required AxisWidths Widths { get; init; }

    /// <summary>Most octets of content that the board receives: <see cref="FrameFormat.MaxContent"/> in this version.</summary>
    public required byte MaxContent { get; init; }

    /// <summary>Records that the board's queue holds: 1 or more.</summary>
    public required byte QueueRecords { get; init; }

    /// <summary>Octets of the board's store for an image; 0 if it has none.</summary>
    public required ushort StoreBytes { get; init; }

    /// <summary>Why the board last reset.</summary>
    public required ResetReason ResetReason { get; init; }

    /// <summary>The board's state.</summary>
    public required MachineState State { get; init; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Welcome;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        BinaryPrimitives.WriteUInt16BigEndian(body, Token);
        body[2] = WireVersion;
        body[3] = FirmwareMajor;
        body[4] = FirmwareMinor;
        body[5] = (byte)Widths;
        body[6] = MaxContent;
        body[7] = QueueRecords;
        BinaryPrimitives.WriteUInt16BigEndian(body[8..], StoreBytes);
        body[10] = (byte)ResetReason;
        body[11] = (byte)State;
        return Length;
    }

    /// <summary>Reads the part that every version shares: token and wire version. False if the body is too short.</summary>
    public static bool TryReadVersion(ReadOnlySpan<byte> body, out ushort token, out byte wireVersion)
    {
        token = 0;
        wireVersion = 0;
        if (body.Length < 3)
            return false;
        token = BinaryPrimitives.ReadUInt16BigEndian(body);
        wireVersion = body[2];
        return true;
    }

    /// <summary>Reads a body of this version; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Welcome message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new Welcome
        {
            Token = BinaryPrimitives.ReadUInt16BigEndian(body),
            WireVersion = body[2],
            FirmwareMajor = body[3],
            FirmwareMinor = body[4],
            Widths = (AxisWidths)body[5],
            MaxContent = body[6],
            QueueRecords = body[7],
            StoreBytes = BinaryPrimitives.ReadUInt16BigEndian(body[8..]),
            ResetReason = (ResetReason)body[10],
            State = (MachineState)body[11],
        };
        return message.IsInRange();
    }

    private bool IsInRange() => WireVersion == Hello.CurrentVersion
        && Widths is > AxisWidths.None and <= (AxisWidths.Four | AxisWidths.Eight | AxisWidths.Twelve)
        && MaxContent == FrameFormat.MaxContent && QueueRecords > 0
        && ResetReason <= ResetReason.Watchdog && StateTable.IsDefined(State);
}
