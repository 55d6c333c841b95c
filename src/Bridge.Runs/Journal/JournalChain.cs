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

    private static readonly byte[] Zeros = Start.Ascii;

    private readonly string? _digits;

    private JournalChain(string digits) => _digits = digits;

    /// <summary>What the first line is chained to: 32 zeros.</summary>
    public static JournalChain Start => default;

    private byte[] Ascii => Encoding.ASCII.GetBytes(ToString());

    /// <summary>The link of the line that follows.</summary>
    /// <param name="body">The line up to where its own link stands.</param>
    public JournalChain Over(ReadOnlySpan<byte> body)
    {
        Span<byte> link = stackalloc byte[Digits];
        Write(link, Ascii, body);
        return new JournalChain(Encoding.ASCII.GetString(link));
    }

    /// <summary>Whether a line bears the link that it has to.</summary>
    /// <param name="line">The line.</param>
    /// <param name="before">The line before it, whose own link is taken as it stands; empty for the first line.</param>
    public static bool Continues(ReadOnlySpan<byte> line, ReadOnlySpan<byte> before)
    {
        ReadOnlySpan<byte> linkBefore = Zeros;
        if (!TryTake(line, out var body, out var digits) || (!before.IsEmpty && !TryTake(before, out _, out linkBefore)))
            return false;
        Span<byte> link = stackalloc byte[Digits];
        Write(link, linkBefore, body);
        return digits.SequenceEqual(link);
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

    /// <summary>The link that a line bears, as it stands there; false where it bears none.</summary>
    public static bool TryTakeOver(ReadOnlySpan<byte> line, out JournalChain link)
    {
        var bears = TryTake(line, out _, out var digits);
        link = bears ? new JournalChain(Encoding.ASCII.GetString(digits)) : Start;
        return bears;
    }

    /// <summary>Its digits.</summary>
    public override string ToString() => _digits ?? new string('0', Digits);

    // A journal has hundreds of thousands of lines: nothing is left behind for one of usual length.
    private static void Write(Span<byte> link, ReadOnlySpan<byte> before, ReadOnlySpan<byte> body)
    {
        const int UsualBytes = 512;
        var length = before.Length + body.Length;
        var chained = length <= UsualBytes ? stackalloc byte[length] : new byte[length];
        before.CopyTo(chained);
        body.CopyTo(chained[before.Length..]);
        Span<byte> digest = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(chained, digest);
        Convert.TryToHexStringLower(digest[..(Digits / 2)], link, out _);
    }
}
