namespace Bridge.Wire;

/// <summary>What a board makes of a frame's session and number.</summary>
public enum FrameVerdict
{
    /// <summary>The next message: execute it, once.</summary>
    New,

    /// <summary>Taken before: answer with Status, do nothing.</summary>
    Duplicate,

    /// <summary>A message before this one is missing: answer with Status, do nothing; the host sends both again.</summary>
    Gap,

    /// <summary>Of another session, or none is open: do not answer.</summary>
    ForeignSession,
}

/// <summary>The board's end of the link: which session is open and which message comes next. A handful of octets on a controller.</summary>
public sealed class LinkReceiver
{
    /// <summary>True once a Hello has opened a session.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>The open session's token.</summary>
    public ushort Token { get; private set; }

    /// <summary>The session octet of every frame: the token's low octet.</summary>
    public byte Session => (byte)Token;

    /// <summary>The next number that a message must have: the acknowledgement of all before it.</summary>
    public byte Expected { get; private set; }

    /// <summary>True from a message that came too early until the missing one comes. Every Status carries it.</summary>
    public bool Gap { get; private set; }

    /// <summary>A Hello of the board's own version. True if it opens a new session, false if it only asks for the same Welcome again.</summary>
    public bool Open(ushort token)
    {
        if (IsOpen && token == Token)
            return false;
        IsOpen = true;
        Token = token;
        Expected = 0;
        Gap = false;
        return true;
    }

    /// <summary>Whether a frame belongs to the open session.</summary>
    public bool IsOwn(byte session) => IsOpen && session == Session;

    /// <summary>Judges a Beat: true if it is of this session. Its number, the next to be sent, shows whether the last message was lost.</summary>
    public bool HearBeat(byte session, byte next)
    {
        if (!IsOwn(session))
            return false;
        Gap |= SerialNumber.Compare(next, Expected) > 0;
        return true;
    }

    /// <summary>Judges a numbered message, and consumes its number if it is the next one.</summary>
    public FrameVerdict Accept(byte session, byte number)
    {
        if (!IsOwn(session))
            return FrameVerdict.ForeignSession;
        if (number != Expected)
            return Refuse(number);
        Expected = SerialNumber.Add(Expected, 1);
        Gap = false;
        return FrameVerdict.New;
    }

    /// <summary>Forgets the session, as a reset does.</summary>
    public void Close()
    {
        IsOpen = false;
        Token = 0;
        Expected = 0;
        Gap = false;
    }

    private FrameVerdict Refuse(byte number)
    {
        if (SerialNumber.Compare(number, Expected) < 0)
            return FrameVerdict.Duplicate;
        Gap = true;
        return FrameVerdict.Gap;
    }
}
