namespace Bridge.Wire;

/// <summary>What an octet completed.</summary>
public enum DecoderEvent
{
    /// <summary>Nothing that anyone needs to know of.</summary>
    None,

    /// <summary>A good frame: read <see cref="FrameDecoder.Frame"/> before the next octet.</summary>
    Frame,

    /// <summary>STOP: this octet and the one before it were both a bare 7F.</summary>
    Stop,
}

/// <summary>
/// Finds frames and STOP in a stream of octets, one octet at a time, in fixed memory. Damage costs at most the frames that it touches.
/// </summary>
public sealed class FrameDecoder
{
    private readonly byte[] _content = new byte[FrameFormat.MaxContent];
    private FrameCounters _counters;
    private int _length;
    private int _frameLength;
    private ushort _fcs = Fcs16.Initial;
    private bool _seeking = true;
    private bool _escaped;
    private bool _spoiled;
    private bool _tooLong;
    private bool _reservedBefore;

    /// <summary>The last good frame, 3 to 62 octets without check sequence; it stands until the next octet is pushed.</summary>
    public ReadOnlySpan<byte> Frame => _content.AsSpan(0, _frameLength);

    /// <summary>What has been seen so far.</summary>
    public FrameCounters Counters => _counters;

    /// <summary>Takes the next octet of the stream.</summary>
    public DecoderEvent Push(byte octet)
    {
        _frameLength = 0;
        if (octet == FrameFormat.Reserved)
            return Reserved();
        _reservedBefore = false;
        if (octet == FrameFormat.Flag)
            return Close();
        if (_seeking)
            return DecoderEvent.None;
        if (octet == FrameFormat.Escape && !_escaped)
            _escaped = true;
        else
            Append(_escaped ? (byte)(octet ^ FrameFormat.Flip) : octet);
        return DecoderEvent.None;
    }

    /// <summary>Tells the decoder that the receiver lost or misread an octet here: the frame around it is discarded.</summary>
    public void Spoil()
    {
        _reservedBefore = false;
        _escaped = false;
        _spoiled = !_seeking;
    }

    private DecoderEvent Reserved()
    {
        var stop = _reservedBefore;
        Spoil();
        _reservedBefore = true;
        if (!stop)
            return DecoderEvent.None;
        _counters = _counters with { Stops = _counters.Stops + 1 };
        return DecoderEvent.Stop;
    }

    private void Append(byte octet)
    {
        _escaped = false;
        if (_length == FrameFormat.MaxContent)
        {
            _tooLong = true;
            return;
        }
        _content[_length++] = octet;
        _fcs = Fcs16.Update(_fcs, octet);
    }

    private DecoderEvent Close()
    {
        var good = !_seeking && CountClosed();
        _frameLength = good ? _length - FrameFormat.FcsLength : 0;
        _length = 0;
        _fcs = Fcs16.Initial;
        _seeking = _escaped = _spoiled = _tooLong = false;
        return good ? DecoderEvent.Frame : DecoderEvent.None;
    }

    private bool CountClosed()
    {
        if (_spoiled)
            _counters = _counters with { Spoiled = _counters.Spoiled + 1 };
        else if (_escaped)
            _counters = _counters with { Aborted = _counters.Aborted + 1 };
        else if (_tooLong)
            _counters = _counters with { TooLong = _counters.TooLong + 1 };
        else if (_length == 0)
            return false;
        else if (_length < FrameFormat.MinContent)
            _counters = _counters with { TooShort = _counters.TooShort + 1 };
        else if (_fcs != Fcs16.Good)
            _counters = _counters with { BadFcs = _counters.BadFcs + 1 };
        else
        {
            _counters = _counters with { Good = _counters.Good + 1 };
            return true;
        }
        return false;
    }
}
