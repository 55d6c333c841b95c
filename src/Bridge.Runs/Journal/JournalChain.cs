using System.Security.Cryptography;
using System.Text;

namespace Bridge.Runs;

/// <summary>
/// The chain that a journal's lines make: 32 hexadecimal digits, the leftmost 128 bits of a SHA-256 (FIPS 180-4) over those of the line before and
/// the line itself. So each line vouches for all before it.
/// </summary>
public readonly record struct JournalChain
{
    /// <summary>Digits of a link of the chain.</summary>
    public const int Digits = 32;

    private static readonly byte[] Before = ",\"chain\":\""u8.ToArray();
    private static readonly byte[] After = "\"}"u8.ToArray();

    private readonly string? _digits;

    private JournalChain(string digits) => _digits = digits;

    /// <summary>What the first line is chained to: 32 zeros.</summary>
    public static JournalChain Start => default;

    private byte[] Ascii => Encoding.ASCII.GetBytes(ToString());

    /// <summary>The link of the line that follows.</summary>
    /// <param name="body">The line up to where its own link stands.</param>
    public JournalChain Over(ReadOnlySpan<byte> body)
    {
        byte[] chained = [.. Ascii, .. body];
        return new JournalChain(Convert.ToHexStringLower(SHA256.HashData(chained).AsSpan(0, Digits / 2)));
    }

    /// <summary>A line of the journal, its new line not counted: the body, this link, and what closes the entry.</summary>
    public byte[] Line(ReadOnlySpan<byte> body) => [.. body, .. Before, .. Ascii, .. After];

    /// <summary>Takes a line apart; false where it has no link.</summary>
    public static bool TryTake(ReadOnlySpan<byte> line, out ReadOnlySpan<byte> body, out ReadOnlySpan<byte> digits)
    {
        body = digits = default;
        var at = line.Length - After.Length - Digits - Before.Length;
        if (at < 0 || !line.EndsWith(After) || !line[at..].StartsWith(Before))
            return false;
        body = line[..at];
        digits = line.Slice(at + Before.Length, Digits);
        return true;
    }

    /// <summary>The link that a line bears, as it stands there; before the first line that is the start. False where it bears none.</summary>
    public static bool TryTakeOver(ReadOnlySpan<byte> line, bool isFirst, out JournalChain link)
    {
        link = Start;
        if (isFirst)
            return true;
        if (!TryTake(line, out _, out var digits))
            return false;
        link = new JournalChain(Encoding.ASCII.GetString(digits));
        return true;
    }

    /// <summary>Whether these are its digits.</summary>
    public bool Is(ReadOnlySpan<byte> digits) => digits.SequenceEqual(Ascii);

    /// <summary>Its digits.</summary>
    public override string ToString() => _digits ?? new string('0', Digits);
}
