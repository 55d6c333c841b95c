using System.Security.Cryptography;

namespace Bridge.Runs;

/// <summary>Tokens of sessions with a device: random, and each session's octet another than that of the session before.</summary>
public static class SessionToken
{
    /// <summary>A first one.</summary>
    public static ushort New() => (ushort)RandomNumberGenerator.GetInt32(0, ushort.MaxValue + 1);

    /// <summary>One for the session after another.</summary>
    public static ushort After(ushort before) => (ushort)((New() & 0xFF00) | (byte)(before + RandomNumberGenerator.GetInt32(1, 256)));
}
