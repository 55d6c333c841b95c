namespace Bridge.Wire;

/// <summary>Host: a sign of life without a body. The board answers with its Status.</summary>
public readonly record struct Beat : IMessage
{
    /// <summary>Octets of the body: none.</summary>
    public const int Length = 0;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.Beat;

    /// <inheritdoc/>
    public int Write(Span<byte> body) => Length;

    /// <summary>True if the body is empty.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out Beat message)
    {
        message = default;
        return body.IsEmpty;
    }
}
