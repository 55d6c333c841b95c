using System.Buffers.Binary;

namespace Bridge.Wire;

/// <summary>Board: all that it knows of itself, as absolute values, so that a lost Status costs nothing.</summary>
public readonly record struct Status : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 30;

    /// <summary>The number of the message that <see cref="Answer"/> answers: the last numbered one that was not Records, or a refused Records.</summary>
    public required byte AnswerNumber { get; init; }

    /// <summary>None if that message was accepted, else why not.</summary>
    public required Answer Answer { get; init; }

    /// <summary>The board's state.</summary>
    public required MachineState State { get; init; }

    /// <summary>Why it is in that state.</summary>
    public required StateCause Cause { get; init; }

    /// <summary>Contacts and referenced axes.</summary>
    public required BoardInputs Inputs { get; init; }

    /// <summary>The run that the counters belong to; 0 if none has begun since the board reset.</summary>
    public required ushort RunId { get; init; }

    /// <summary>Records taken into the queue since Begin.</summary>
    public required uint RecordsTaken { get; init; }

    /// <summary>Credit as an absolute edge: the host may send records whose index is below it.</summary>
    public required uint RecordsLimit { get; init; }

    /// <summary>Records executed to their end since Begin.</summary>
    public required uint RecordsDone { get; init; }

    /// <summary>Cells worked in the record that is being executed.</summary>
    public required uint CellsDone { get; init; }

    /// <summary>The cell along X where the machine is, or was last.</summary>
    public required ushort X { get; init; }

    /// <summary>The cell along Y where the machine is, or was last.</summary>
    public required ushort Y { get; init; }

    /// <summary>The layer, from 0.</summary>
    public required ushort Layer { get; init; }

    /// <summary>The head in use: 0 head a, 1 head b.</summary>
    public required byte Head { get; init; }

    /// <summary>True while the head works: a dot is being made, or the pen is down.</summary>
    public required bool Working { get; init; }

    /// <summary>True while a message before the last one received is missing: the host sends again at once from the number expected.</summary>
    public bool Gap { get; init; }

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Status;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = AnswerNumber;
        body[1] = (byte)Answer;
        body[2] = (byte)State;
        body[3] = (byte)Cause;
        body[4] = (byte)Inputs;
        BinaryPrimitives.WriteUInt16BigEndian(body[5..], RunId);
        BinaryPrimitives.WriteUInt32BigEndian(body[7..], RecordsTaken);
        BinaryPrimitives.WriteUInt32BigEndian(body[11..], RecordsLimit);
        BinaryPrimitives.WriteUInt32BigEndian(body[15..], RecordsDone);
        BinaryPrimitives.WriteUInt32BigEndian(body[19..], CellsDone);
        BinaryPrimitives.WriteUInt16BigEndian(body[23..], X);
        BinaryPrimitives.WriteUInt16BigEndian(body[25..], Y);
        BinaryPrimitives.WriteUInt16BigEndian(body[27..], Layer);
        body[29] = (byte)(Head | (Working ? 2 : 0) | (Gap ? 4 : 0));
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Status message)
    {
        message = default;
        if (body.Length != Length || body[29] > 7)
            return false;
        message = new Status
        {
            AnswerNumber = body[0],
            Answer = (Answer)body[1],
            State = (MachineState)body[2],
            Cause = (StateCause)body[3],
            Inputs = (BoardInputs)body[4],
            RunId = BinaryPrimitives.ReadUInt16BigEndian(body[5..]),
            RecordsTaken = BinaryPrimitives.ReadUInt32BigEndian(body[7..]),
            RecordsLimit = BinaryPrimitives.ReadUInt32BigEndian(body[11..]),
            RecordsDone = BinaryPrimitives.ReadUInt32BigEndian(body[15..]),
            CellsDone = BinaryPrimitives.ReadUInt32BigEndian(body[19..]),
            X = BinaryPrimitives.ReadUInt16BigEndian(body[23..]),
            Y = BinaryPrimitives.ReadUInt16BigEndian(body[25..]),
            Layer = BinaryPrimitives.ReadUInt16BigEndian(body[27..]),
            Head = (byte)(body[29] & 1),
            Working = (body[29] & 2) != 0,
            Gap = (body[29] & 4) != 0,
        };
        return message.IsInRange();
    }

    private bool IsInRange() => Answer <= Answer.StoreForeign && StateTable.IsDefined(State) && Cause <= StateCause.StoreForeign
        && RecordsDone <= RecordsTaken && RecordsTaken <= RecordsLimit;
}
