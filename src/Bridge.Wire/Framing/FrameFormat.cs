namespace Bridge.Wire;

/// <summary>The octets and bounds of framing: RFC 1662, sections 4.1 and 4.2, with one reserved octet and bounds of our own.</summary>
public static class FrameFormat
{
    /// <summary>Opens and closes a frame. One flag may do both.</summary>
    public const byte Flag = 0x7E;

    /// <summary>The next octet is sent with <see cref="Flip"/> applied.</summary>
    public const byte Escape = 0x7D;

    /// <summary>XORed into an escaped octet.</summary>
    public const byte Flip = 0x20;

    /// <summary>Never sent bare but to stop the machine: two in a row mean STOP anywhere.</summary>
    public const byte Reserved = 0x7F;

    /// <summary>Octets before the body: type, session, number.</summary>
    public const int HeaderLength = 3;

    /// <summary>Octets of the frame check sequence.</summary>
    public const int FcsLength = 2;

    /// <summary>Fewest octets between flags, unescaped, check sequence included.</summary>
    public const int MinContent = HeaderLength + FcsLength;

    /// <summary>Most octets between flags, unescaped, check sequence included.</summary>
    public const int MaxContent = 64;

    /// <summary>Most octets of a message's body.</summary>
    public const int MaxBody = MaxContent - HeaderLength - FcsLength;

    /// <summary>Most octets that a frame takes on the line: every octet escaped, and two flags.</summary>
    public const int MaxOnLine = 2 * MaxContent + 2;

    /// <summary>True for the octets that a sender escapes: 7D, 7E and 7F, and no other.</summary>
    public static bool MustEscape(byte octet) => octet is Flag or Escape or Reserved;
}
