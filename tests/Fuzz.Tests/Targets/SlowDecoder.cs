namespace Fuzz.Tests;

/// <summary>SPEC.md, sections 2 and 3, over octets that are all there: between two flags everything is looked at once more.</summary>
internal sealed class SlowDecoder(byte[] octets, bool forgetsEscape)
{
    private const byte Escape = 0x7D;
    private const byte Flag = 0x7E;
    private const byte Reserved = 0x7F;

    public List<string> Events()
    {
        var (events, opened) = (new List<string>(), -1);
        for (var at = 0; at < octets.Length; at++)
        {
            if (octets[at] == Reserved && at > 0 && octets[at - 1] == Reserved)
                events.Add("stop");
            if (octets[at] != Flag)
                continue;
            if (opened >= 0 && Told(octets[(opened + 1)..at]) is { } told)
                events.Add(told);
            opened = at;
        }

        return events;
    }

    private string? Told(byte[] between)
    {
        if (between.Contains(Reserved))
            return "spoiled";
        var (content, escaped) = (new List<byte>(), false);
        foreach (var octet in between)
        {
            var isEscape = octet == Escape && !escaped;
            if (!isEscape)
                content.Add(escaped ? (byte)(octet ^ 0x20) : octet);
            escaped = isEscape && !(forgetsEscape && content.Count == 3);
        }

        return escaped ? "aborted"
            : content.Count > 64 ? "too_long"
            : content.Count == 0 ? null
            : content.Count < 5 ? "too_short"
            : Remainder(content) != 0xF0B8 ? "bad_fcs"
            : $"frame:{Convert.ToHexStringLower(content.ToArray()[..^2])}";
    }

    // RFC 1662, appendix C.1: bit by bit.
    private static int Remainder(List<byte> content)
    {
        var fcs = 0xFFFF;
        foreach (var octet in content)
        {
            fcs ^= octet;
            for (var bit = 0; bit < 8; bit++)
                fcs = (fcs & 1) == 1 ? fcs >> 1 ^ 0x8408 : fcs >> 1;
        }

        return fcs;
    }
}
