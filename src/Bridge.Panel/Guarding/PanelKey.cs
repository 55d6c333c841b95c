using System.Security.Cryptography;
using System.Text;

namespace Bridge.Panel;

/// <summary>What a page has to know to be listened to: 32 random octets of this start, as text for an address.</summary>
public sealed class PanelKey
{
    private const int Octets = 32;
    private const int LongestText = 100;

    private readonly byte[] _digest;

    private PanelKey(string text) => (Text, _digest) = (text, Digest(text));

    /// <summary>The key as it stands in the address.</summary>
    public string Text { get; }

    /// <summary>A new one.</summary>
    public static PanelKey New() => new(Convert.ToBase64String(RandomNumberGenerator.GetBytes(Octets)).TrimEnd('=').Replace('+', '-').Replace('/', '_'));

    /// <summary>Whether a text is the key; the time that this takes does not tell how much of it is right.</summary>
    public bool Is(string? text) => text is { Length: <= LongestText } && CryptographicOperations.FixedTimeEquals(Digest(text), _digest);

    private static byte[] Digest(string text) => SHA256.HashData(Encoding.UTF8.GetBytes(text));
}
