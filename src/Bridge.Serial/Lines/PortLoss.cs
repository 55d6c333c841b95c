namespace Bridge.Serial;

/// <summary>What a port that has gone looks like from here.</summary>
internal static class PortLoss
{
    /// <summary>True for what a read or a write throws when the other end, the cable or the port has gone.</summary>
    public static bool Is(Exception trouble) =>
        trouble is IOException or ObjectDisposedException or InvalidOperationException or UnauthorizedAccessException
            or OperationCanceledException or TimeoutException;
}
