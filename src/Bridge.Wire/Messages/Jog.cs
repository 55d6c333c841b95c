namespace Bridge.Wire;

/// <summary>Host: leave to move one axis for 40 ms from when it is heard. Hold to run: motion ends when the leave does. Unnumbered.</summary>
/// <param name="Axis">0 X, 1 Y, 2 Z.</param>
/// <param name="IsUp">Away from cell 0, else towards it.</param>
public readonly record struct Jog(byte Axis, bool IsUp) : IMessage
{
    /// <summary>Octets of the body.</summary>
    public const int Length = 2;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Jog;

    /// <inheritdoc/>
    public int Write(Span<byte> body)
    {
        body[0] = Axis;
        body[1] = (byte)(IsUp ? 1 : 0);
        return Length;
    }

    /// <summary>Reads a body; false if its length or a value is outside its range.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Jog message)
    {
        message = default;
        if (body.Length != Length || body[0] > 2 || body[1] > 1)
            return false;
        message = new Jog(body[0], body[1] == 1);
        return true;
    }
}
