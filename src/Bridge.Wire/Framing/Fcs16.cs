namespace Bridge.Wire;

/// <summary>The 16-bit frame check sequence of RFC 1662, appendix C: CRC-16/IBM-SDLC, reflected polynomial 8408.</summary>
public static class Fcs16
{
    /// <summary>Where a calculation begins.</summary>
    public const ushort Initial = 0xFFFF;

    /// <summary>What remains after a frame and its own check sequence, low octet first, if neither was damaged.</summary>
    public const ushort Good = 0xF0B8;

    /// <summary>The check sequence of some octets, to be sent low octet first.</summary>
    public static ushort Of(ReadOnlySpan<byte> octets) => (ushort)~Update(Initial, octets);

    /// <summary>True if the last two octets are the check sequence of those before them.</summary>
    public static bool IsGood(ReadOnlySpan<byte> octets) => Update(Initial, octets) == Good;

    /// <summary>Carries a calculation on over one octet, all its bits at once (the C equivalent in avr-libc's manual of util/crc16.h).</summary>
    public static ushort Update(ushort fcs, byte octet)
    {
        octet ^= (byte)fcs;
        octet ^= (byte)(octet << 4);
        return (ushort)((octet << 8 | fcs >> 8) ^ octet >> 4 ^ octet << 3);
    }

    private static ushort Update(ushort fcs, ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            fcs = Update(fcs, octet);
        return fcs;
    }
}
