namespace Bridge.Wire;

/// <summary>The 16-bit frame check sequence of RFC 1662, appendix C: CRC-16/IBM-SDLC, reflected polynomial 8408.</summary>
public static class Fcs16
{
    /// <summary>Where a calculation begins.</summary>
    public const ushort Initial = 0xFFFF;

    /// <summary>What remains after a frame and its own check sequence, low octet first, if neither was damaged.</summary>
    public const ushort Good = 0xF0B8;

    private const ushort Polynomial = 0x8408;

    /// <summary>The check sequence of some octets, to be sent low octet first.</summary>
    public static ushort Of(ReadOnlySpan<byte> octets) => (ushort)~Update(Initial, octets);

    /// <summary>True if the last two octets are the check sequence of those before them.</summary>
    public static bool IsGood(ReadOnlySpan<byte> octets) => Update(Initial, octets) == Good;

    /// <summary>Carries a calculation on over one octet.</summary>
    public static ushort Update(ushort fcs, byte octet)
    {
        fcs ^= octet;
        for (var bit = 0; bit < 8; bit++)
            fcs = (ushort)((fcs & 1) != 0 ? fcs >> 1 ^ Polynomial : fcs >> 1);
        return fcs;
    }

    private static ushort Update(ushort fcs, ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            fcs = Update(fcs, octet);
        return fcs;
    }
}
