namespace Bridge.Wire;

/// <summary>Host: a command to the board's state machine.</summary>
/// <param name="Value">One of the ten commands.</param>
public readonly record struct Command(MachineCommand Value) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 1;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Command;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = (byte)Value;
        return Length;
    }

    /// <summary>Reads a body; false if its length is wrong or it is none of the ten commands.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Command message)
    {
        message = default;
        if (body.Length != Length)
            return false;
        message = new Command((MachineCommand)body[0]);
        return StateTable.IsDefined(message.Value);
    }
}
