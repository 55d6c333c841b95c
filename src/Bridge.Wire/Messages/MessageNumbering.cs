namespace Bridge.Wire;

/// <summary>Which messages are numbered, that is, delivered exactly once and in order within a session.</summary>
public static class MessageNumbering
{
    /// <summary>True for host messages that consume a sequence number.</summary>
    public static bool IsNumbered(this MessageType type) => type is >= MessageType.SetMachine and <= MessageType.Records;
}
