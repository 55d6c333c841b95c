using System.Buffers;

namespace Bridge.Wire;

/// <summary>
/// The host's end of the link: opens a session, numbers messages, keeps up to a window of them in flight, sends them again from the oldest
/// when the board reports a gap or on time-out, and beats. Frames go in, octets for the line come out, and the time, on any steady clock, is passed in.
/// </summary>
public sealed class LinkSender
{
    private const int MostRecoveries = 2;

    private readonly LinkSettings _settings;
    private readonly IBufferWriter<byte> _output;
    private readonly SentFrames _inFlight;
    private RoundTripEstimator _roundTrip;
    private byte _next;
    private TimeSpan _timerStarted;
    private TimeSpan _lastSent;
    private TimeSpan _lastHeard;
    private int _retransmissionsInARow;
    private bool _isRecovering; // all in flight were sent again, and nothing was acknowledged since
    private int _recoveries; // for a gap, since the last acknowledgement

    /// <summary>A link that appends the octets to be sent to <paramref name="output"/>, which the caller drains after each call.</summary>
    public LinkSender(LinkSettings settings, IBufferWriter<byte> output)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentOutOfRangeException.ThrowIfLessThan(settings.Window, 1, nameof(settings));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(settings.Window, SerialNumber.MaxStep, nameof(settings));
        _settings = settings;
        _output = output;
        _inFlight = new SentFrames(settings.Window);
        _roundTrip = NewEstimator();
    }

    /// <summary>Where the link stands.</summary>
    public LinkState State { get; private set; }

    /// <summary>Why the link was given up; None while it has not been.</summary>
    public LinkFault Fault { get; private set; }

    /// <summary>The session's token.</summary>
    public ushort Token { get; private set; }

    /// <summary>What the board said of itself; null before its Welcome.</summary>
    public Welcome? Welcome { get; private set; }

    /// <summary>The board's wire version; null before its Welcome. It is there even if the version is refused.</summary>
    public byte? BoardVersion { get; private set; }

    /// <summary>The session octet of every frame: the token's low octet.</summary>
    public byte Session => (byte)Token;

    /// <summary>Messages sent and not yet acknowledged.</summary>
    public int InFlight => _inFlight.Count;

    /// <summary>True if <see cref="TrySend"/> would take a message now.</summary>
    public bool CanSend => State == LinkState.Open && !_inFlight.IsFull;

    /// <summary>True if a message of this session is no longer in flight: the board has taken it.</summary>
    public bool IsAcknowledged(byte number) => (byte)(number - _next + _inFlight.Count) >= _inFlight.Count;

    /// <summary>The present retransmission time-out.</summary>
    public TimeSpan Timeout => _roundTrip.Timeout;

    /// <summary>Frames sent again since this object was made.</summary>
    public long Retransmissions { get; private set; }

    /// <summary>Frames sent since this object was made, those sent again counted again.</summary>
    public long FramesSent { get; private set; }

    /// <summary>The round trips measured since this object was made.</summary>
    public RoundTrips RoundTrips { get; private set; }

    /// <summary>When the board was last heard in this session; null before its Welcome.</summary>
    public TimeSpan? LastHeard => Welcome is null ? null : _lastHeard;

    /// <summary>The time at which <see cref="Tick"/> next has something to do; null if never.</summary>
    public TimeSpan? NextDeadline => State switch
    {
        LinkState.Opening => TimerDue,
        LinkState.Open when _inFlight.Count > 0 => Earliest(TimerDue, Earliest(BeatDue, SilenceDue)),
        LinkState.Open => Earliest(BeatDue, SilenceDue),
        _ => null,
    };

    private TimeSpan TimerDue => _timerStarted + _roundTrip.Timeout;

    private TimeSpan BeatDue => _lastSent + _settings.BeatInterval;

    private TimeSpan SilenceDue => _lastHeard + _settings.SilenceLimit;

    /// <summary>Forgets any session and opens a new one. The token is random, and its low octet differs from that of the session before.</summary>
    public void Open(ushort token, TimeSpan now)
    {
        State = LinkState.Opening;
        Fault = LinkFault.None;
        Token = token;
        Welcome = null;
        BoardVersion = null;
        _inFlight.Clear();
        _next = 0;
        _retransmissionsInARow = 0;
        (_isRecovering, _recoveries) = (false, 0);
        _roundTrip = NewEstimator();
        _timerStarted = now;
        SendUnnumbered(new Hello(Hello.CurrentVersion, token), now);
    }

    /// <summary>Sends a numbered message and tells its number; false, and nothing is sent, unless <see cref="CanSend"/>.</summary>
    public bool TrySend<T>(in T message, TimeSpan now, out byte number)
        where T : struct, IMessage, allows ref struct
    {
        if (!T.Type.IsNumbered())
            throw new ArgumentException($"{T.Type} is not a numbered message.", nameof(message));
        number = _next;
        if (!CanSend)
            return false;
        Span<byte> frame = stackalloc byte[FrameFormat.MaxContent];
        frame = frame[..FrameHeader.Compose(frame, Session, number, message)];
        if (_inFlight.Count == 0)
            _timerStarted = now;
        _inFlight.Add(frame, now);
        _next = SerialNumber.Add(_next, 1);
        Put(frame, now);
        return true;
    }

    /// <summary>Sends leave to jog, unnumbered; nothing unless the link is open.</summary>
    public void Say(in Jog leave, TimeSpan now)
    {
        if (State == LinkState.Open)
            SendUnnumbered(leave, now);
    }

    /// <summary>Takes a frame from the board. True if it is a message of the open session, whose body the caller may then read.</summary>
    public bool Receive(ReadOnlySpan<byte> frame, TimeSpan now)
    {
        if (!FrameHeader.TryRead(frame, out var header, out var body) || header.Session != Session)
            return false;
        if (State == LinkState.Opening && header.Type == MessageType.Welcome)
            TakeWelcome(header.Number, body, now);
        return State == LinkState.Open && header.Type switch
        {
            MessageType.Welcome => TakeNumber(header.Number, now),
            MessageType.Stored when Stored.TryRead(body, out _) => TakeNumber(header.Number, now),
            MessageType.References when References.TryRead(body, out _) => TakeNumber(header.Number, now),
            MessageType.Status when Status.TryRead(body, out var status) => TakeStatus(header.Number, status.Gap, now),
            _ => false,
        };
    }

    /// <summary>Does what is due by now: sends again, beats, or gives the line up. Hand over all frames that have arrived first.</summary>
    public void Tick(TimeSpan now)
    {
        if (State == LinkState.Opening && now >= TimerDue)
            SendHelloAgain(now);
        if (State == LinkState.Open && now >= SilenceDue)
            Fail(LinkFault.Silent);
        if (State == LinkState.Open && _inFlight.Count > 0 && now >= TimerDue)
            SendAllAgain(now);
        if (State == LinkState.Open && now >= BeatDue)
            SendUnnumbered(new Beat(), now);
    }

    /// <summary>Takes note that the host did not listen for a while, ending now: that is not the board's silence.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The absence is negative.</exception>
    public void Excuse(TimeSpan absence, TimeSpan now)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(absence, TimeSpan.Zero);
        _lastHeard = Earliest(_lastHeard + absence, now);
    }

    /// <summary>Ends the session on this side, for instance when the line has closed. Nothing is sent.</summary>
    public void Close()
    {
        State = LinkState.Closed;
        Fault = LinkFault.None;
        _inFlight.Clear();
    }

    private void TakeWelcome(byte number, ReadOnlySpan<byte> body, TimeSpan now)
    {
        if (!Bridge.Wire.Welcome.TryReadVersion(body, out var token, out var version) || token != Token)
            return;
        BoardVersion = version;
        if (version != Hello.CurrentVersion)
            Fail(LinkFault.WrongVersion);
        else if (!Bridge.Wire.Welcome.TryRead(body, out var welcome))
            Fail(LinkFault.BadWelcome);
        else if (number != 0)
            Fail(LinkFault.TokenInUse);
        else
            Begin(welcome, now);
    }

    private void Begin(Welcome welcome, TimeSpan now)
    {
        // A time-out that grew while the board was not there says nothing about the line: RFC 6298, section 5.7, restarts likewise.
        if (_retransmissionsInARow > 0)
            _roundTrip = NewEstimator();
        else
            TakeRoundTrip(now - _timerStarted);
        _retransmissionsInARow = 0;
        Welcome = welcome;
        _lastHeard = now;
        State = LinkState.Open;
    }

    private bool TakeStatus(byte expected, bool gap, TimeSpan now)
    {
        if (!TakeNumber(expected, now))
            return false;
        if (gap && _inFlight.Count > 0 && (!_isRecovering || IsLostAgain(now)))
            Recover(now);
        return true;
    }

    private bool TakeNumber(byte expected, TimeSpan now)
    {
        var oldest = (byte)(_next - _inFlight.Count);
        var isInWindow = SerialNumber.Compare(oldest, expected) <= 0 && SerialNumber.Compare(expected, _next) <= 0;
        if (!isInWindow)
            return false;
        _lastHeard = now;
        var acknowledged = (byte)(expected - oldest);
        if (acknowledged == 0)
            return true;
        if (_inFlight.Drop(acknowledged) is { } sentAt)
            TakeRoundTrip(now - sentAt);
        _retransmissionsInARow = 0;
        (_isRecovering, _recoveries) = (false, 0);
        _timerStarted = now;
        return true;
    }

    private void SendHelloAgain(TimeSpan now)
    {
        if (CountRetransmission(frames: 1, now))
            SendUnnumbered(new Hello(Hello.CurrentVersion, Token), now);
    }

    // A line keeps octets in order and the board takes messages in order alone. So a gap at the oldest message means that all in flight were
    // lost or discarded; what is acknowledged from now on is what is sent now. The Status frames already on their way say the same gap.
    private void Recover(TimeSpan now)
    {
        if (_isRecovering)
            _inFlight.MarkRepeated();
        else
            _inFlight.MarkReplaced(now);
        _recoveries++;
        Retransmissions += _inFlight.Count;
        _timerStarted = now;
        SendAll(now);
    }

    // A gap that a Status still tells of a round trip later: what was sent again for it is lost too. Bounded, so that time-outs go on and count.
    private bool IsLostAgain(TimeSpan now) => _recoveries < MostRecoveries && now - _timerStarted >= _roundTrip.Smoothed;

    private void SendAllAgain(TimeSpan now)
    {
        if (!CountRetransmission(_inFlight.Count, now))
            return;
        _inFlight.MarkRepeated();
        SendAll(now);
    }

    private void SendAll(TimeSpan now)
    {
        _isRecovering = true;
        for (var index = 0; index < _inFlight.Count; index++)
            Put(_inFlight[index], now);
    }

    private bool CountRetransmission(int frames, TimeSpan now)
    {
        if (_retransmissionsInARow == _settings.MaxRetransmissions)
        {
            Fail(LinkFault.Unanswered);
            return false;
        }
        _retransmissionsInARow++;
        Retransmissions += frames;
        _roundTrip.BackOff();
        _timerStarted = now;
        return true;
    }

    private void Fail(LinkFault fault)
    {
        State = LinkState.Failed;
        Fault = fault;
    }

    private void SendUnnumbered<T>(in T message, TimeSpan now)
        where T : struct, IMessage
    {
        Span<byte> frame = stackalloc byte[FrameFormat.MaxContent];
        Put(frame[..FrameHeader.Compose(frame, Session, _next, message)], now);
    }

    private void Put(ReadOnlySpan<byte> frame, TimeSpan now)
    {
        FrameEncoder.Encode(frame, _output);
        _lastSent = now;
        FramesSent++;
    }

    private void TakeRoundTrip(TimeSpan roundTrip)
    {
        _roundTrip.Sample(roundTrip);
        RoundTrips = RoundTrips.With(roundTrip);
    }

    private RoundTripEstimator NewEstimator() =>
        new(_settings.Granularity, _settings.InitialTimeout, _settings.TimeoutFloor, _settings.TimeoutCap);

    private static TimeSpan Earliest(TimeSpan left, TimeSpan right) => left < right ? left : right;
}
