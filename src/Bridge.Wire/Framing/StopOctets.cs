namespace Bridge.Wire;

/// <summary>STOP: octets that stop the machine from anywhere in the stream, past every queue.</summary>
public static class StopOctets
{
    /// <summary>How many in a row mean STOP.</summary>
    public const int Least = 2;

    /// <summary>What the host sends at once, and again at an interval until the board says that it aborts: eight times 7F.</summary>
    public static ReadOnlySpan<byte> Burst => [0x7F, 0x7F, 0x7F, 0x7F, 0x7F, 0x7F, 0x7F, 0x7F];
}
