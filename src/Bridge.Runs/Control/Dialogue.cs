using System.Buffers;
using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>What is said between a run and its device: one question at a time and its answer, and records when no answer is awaited.</summary>
internal sealed class Dialogue
{
    // Places of the link's window that records leave free for commands.
    private const int PlacesForCommands = 2;

    private readonly LinkSettings _settings;
    private readonly LinkSender _link;
    private ushort _token;
    private byte _asked;

    public Dialogue(TimeOuts times, ushort token, IBufferWriter<byte> output)
    {
        _settings = new LinkSettings
        {
            SilenceLimit = times.Answer,
            BeatInterval = TimeSpan.FromSeconds(Math.Min(0.1, Math.Min(times.LineSilence.TotalSeconds, times.Answer.TotalSeconds) / 4)),
        };
        _link = new LinkSender(_settings, output);
        _token = token;
    }

    /// <summary>Whether the last question has its answer; true before the first.</summary>
    public bool IsAnswered { get; private set; } = true;

    /// <summary>The last answer.</summary>
    public Answer Answer { get; private set; }

    /// <summary>Whether a question would be sent now.</summary>
    public bool CanAsk => _link.CanSend;

    /// <summary>Whether records may be sent now. They wait for answers, because a refusal of records would take an answer's place.</summary>
    public bool CanSendRecords => IsAnswered && _link.CanSend && _link.InFlight < _settings.Window - PlacesForCommands;

    /// <summary>Whether the device has heard all that was sent.</summary>
    public bool IsAllHeard => _link.InFlight == 0;

    /// <summary>Whether the link was given up.</summary>
    public bool HasFailed => _link.State == LinkState.Failed;

    /// <summary>Why the link was given up.</summary>
    public LinkFault Fault => _link.Fault;

    /// <summary>The wire version of the device; null before its Welcome.</summary>
    public byte? DeviceVersion => _link.BoardVersion;

    /// <summary>Records that the device's queue holds; 1 before its Welcome.</summary>
    public int QueueRecords => _link.Welcome?.QueueRecords ?? 1;

    /// <summary>What the device said of itself; null before its Welcome.</summary>
    public Welcome? Welcome => _link.Welcome;

    public long Retransmissions => _link.Retransmissions;

    public long FramesSent => _link.FramesSent;

    public RoundTrips RoundTrips => _link.RoundTrips;

    public TimeSpan? NextDeadline => _link.NextDeadline;

    /// <summary>What the device's references found, as it was last told; null before.</summary>
    public References? References { get; private set; }

    /// <summary>Opens a session, each time with another token. What was in flight is never sent again.</summary>
    public void Open(TimeSpan now)
    {
        IsAnswered = true;
        _link.Open(_token++, now);
    }

    public void Tick(TimeSpan now) => _link.Tick(now);

    /// <summary>Takes note that nobody listened to the device for a while, ending now.</summary>
    public void Excuse(TimeSpan absence, TimeSpan now) => _link.Excuse(absence, now);

    /// <summary>Asks, if <see cref="CanAsk"/>; an answer that is still awaited is given up.</summary>
    public void Ask<T>(in T question, TimeSpan now)
        where T : struct, IMessage
    {
        if (_link.TrySend(question, now, out _asked))
            IsAnswered = false;
    }

    /// <summary>Sends records, if <see cref="CanSendRecords"/>.</summary>
    public void Send(in Wire.Records records, TimeSpan now) => _link.TrySend(records, now, out _);

    /// <summary>Takes a frame; true if it is a Status of this session.</summary>
    public bool TryHear(ReadOnlySpan<byte> frame, TimeSpan now, out Status status)
    {
        status = default;
        if (!_link.Receive(frame, now) || !FrameHeader.TryRead(frame, out var header, out var body))
            return false;
        if (header.Type == MessageType.References && Wire.References.TryRead(body, out var told))
            References = told;
        if (header.Type != MessageType.Status || !Status.TryRead(body, out status))
            return false;
        if (!IsAnswered && status.AnswerNumber == _asked && _link.IsAcknowledged(_asked))
            (IsAnswered, Answer) = (true, status.Answer);
        return true;
    }
}
