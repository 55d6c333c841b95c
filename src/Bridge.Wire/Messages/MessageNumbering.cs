namespace Bridge.Wire;

/// <summary>Which messages are numbered, that is, delivered exactly once and in order within a session.</summary>
public static class MessageNumbering
{
    private const byte LastOfHost = 0x7F;

    /// <summary>True for host messages that consume a sequence number: 03 to 7F but for jog, so that a board can refuse one it does not know.</summary>
    public static bool IsNumbered(this MessageType type) => type >= MessageType.SetMachine && (byte)type <= LastOfHost && type != MessageType.Jog;
}
