namespace Bridge.Wire;

/// <summary>Host: asks what the count was when the axes were last referenced. The board answers with <see cref="References"/>, then with its Status.</summary>
public readonly record struct ReferenceRead : IMessage
{
    /// <summary>Octets of the body: none.</summary>
    public const int Length = 0;

    /// <inheritdoc/>
    public static MessageType Type => MessageType.ReferenceRead;

    /// <inheritdoc/>
    public int Write(Span<byte> body) => Length;

    /// <summary>True if the body is empty.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out ReferenceRead message)
    {
        message = default;
        return body.IsEmpty;
    }
}
