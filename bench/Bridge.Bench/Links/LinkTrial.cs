using System.Buffers;
using Bridge.Wire;

namespace Bridge.Bench;

/// <summary>
/// The link's two ends over a simulated line at 500 000 baud, in virtual time: the host's sends as much as it may, the board's takes everything and
/// answers as the firmware does, one Status at a time. Frames are full ones.
/// </summary>
/// <param name="window">Messages in flight.</param>
/// <param name="delay">What the line adds to a round trip, half of it each way.</param>
/// <param name="errors">The chance that a frame is damaged, either way.</param>
internal sealed class LinkTrial(int window, TimeSpan delay, double errors)
{
    private static readonly TimeSpan Octet = TimeSpan.FromMicroseconds(20); // ten bits

    private readonly Random _random = new(1);
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly LinkReceiver _receiver = new();
    private readonly FrameDecoder _ofBoard = new();
    private readonly FrameDecoder _ofHost = new();
    private readonly Queue<(TimeSpan At, byte[] Octets)> _toBoard = new();
    private readonly Queue<(TimeSpan At, byte[] Octets)> _toHost = new();
    private readonly byte[] _line = new byte[FrameFormat.MaxOnLine];
    private readonly byte[] _records = new byte[Records.MaxOctets];
    private TimeSpan _now;
    private TimeSpan _hostFree;
    private TimeSpan _boardFree;
    private bool _statusIsDue;
    private bool _welcomeIsDue;
    private long _delivered;
    private long _deliveredOctets;

    /// <summary>Octets of a full message on the line and of a Status, on average.</summary>
    public static (double Message, double Status) Lengths { get; } = (MeanLength(1000), StatusLength());

    /// <summary>The part of the line's capacity that brings messages on, framing counted: 1 is frames back to back and none damaged.</summary>
    public double Run(TimeSpan duration)
    {
        var link = new LinkSender(new LinkSettings { Window = window }, _output);
        link.Open(0x1234, _now);
        while (_now < duration)
        {
            while (link.CanSend)
                link.TrySend(NextMessage(), _now, out _);
            link.Tick(_now);
            Put(_output.WrittenSpan, _toBoard, ref _hostFree);
            _output.ResetWrittenCount();
            TellIfDue();
            _now = NextEvent(link.NextDeadline);
            if (link.State == LinkState.Failed)
                throw new InvalidOperationException($"The link was given up: {link.Fault}.");
            HearBoth(link);
        }

        return _deliveredOctets * Octet / duration;
    }

    private static double MeanLength(int frames)
    {
        var trial = new LinkTrial(1, default, 0);
        var octets = 0L;
        for (var frame = 0; frame < frames; frame++)
            octets += trial.Encoded(trial.NextMessage()).Length;
        return (double)octets / frames;
    }

    private static double StatusLength() => new LinkTrial(1, default, 0).Encoded(StatusOf(gap: false)).Length;

    private Records NextMessage()
    {
        for (var index = 0; index < Records.MaxOctets - 1; index += 3) // 18 rows of a 4-bit machine
        {
            _records[index] = (byte)(0x40 + 2 * _random.Next(8));
            _records[index + 1] = (byte)_random.Next(256);
            _records[index + 2] = (byte)_random.Next(16);
        }

        return new Records((uint)_delivered, _records.AsSpan(0, Records.MaxOctets - 1));
    }

    private static Status StatusOf(bool gap) => new()
    {
        AnswerNumber = 9, Answer = Answer.Accepted, State = MachineState.Execute, Cause = StateCause.None, Inputs = default, RunId = 1,
        RecordsTaken = 1000, RecordsLimit = 1016, RecordsDone = 990, CellsDone = 3, X = 3, Y = 4, Layer = 0, Head = 0, Working = true, Gap = gap,
    };

    // As the firmware: a Status is put together when the one before has left, and says all that is known by then.
    private void TellIfDue()
    {
        if (_now < _boardFree)
            return;
        if (_welcomeIsDue)
            Put(Encoded(WelcomeOf()), _toHost, ref _boardFree);
        else if (_statusIsDue)
            Put(Encoded(StatusOf(_receiver.Gap)), _toHost, ref _boardFree);
        _statusIsDue &= _welcomeIsDue;
        _welcomeIsDue = false;
    }

    private Welcome WelcomeOf() => new()
    {
        Token = _receiver.Token, WireVersion = Hello.CurrentVersion, FirmwareMajor = 0, FirmwareMinor = 1, Widths = (AxisWidths)7,
        MaxContent = FrameFormat.MaxContent, QueueRecords = 16, StoreBytes = 0, ResetReason = ResetReason.PowerOn, State = MachineState.Idle,
    };

    private byte[] Encoded<T>(in T message)
        where T : struct, IMessage, allows ref struct
    {
        Span<byte> frame = stackalloc byte[FrameFormat.MaxContent];
        frame = frame[..FrameHeader.Compose(frame, _receiver.Session, _receiver.Expected, message)];
        return _line[..FrameEncoder.Encode(frame, _line)];
    }

    private void Put(ReadOnlySpan<byte> octets, Queue<(TimeSpan At, byte[] Octets)> way, ref TimeSpan free)
    {
        while (!octets.IsEmpty)
        {
            var length = octets[1..].IndexOf(FrameFormat.Flag) + 2;
            var frame = octets[..length].ToArray();
            free = (free > _now ? free : _now) + Octet * length;
            if (_random.NextDouble() < errors)
                frame[_random.Next(1, length - 1)] ^= 1;
            way.Enqueue((free + delay / 2, frame));
            octets = octets[length..];
        }
    }

    private TimeSpan NextEvent(TimeSpan? deadline)
    {
        var next = deadline ?? TimeSpan.MaxValue;
        if (_toBoard.TryPeek(out var first) && first.At < next)
            next = first.At;
        if (_toHost.TryPeek(out first) && first.At < next)
            next = first.At;
        if ((_statusIsDue || _welcomeIsDue) && _boardFree < next)
            next = _boardFree;
        return next > _now ? next : _now;
    }

    private void HearBoth(LinkSender link)
    {
        while (_toBoard.TryPeek(out var first) && first.At <= _now)
            foreach (var octet in _toBoard.Dequeue().Octets)
                if (_ofBoard.Push(octet) == DecoderEvent.Frame)
                    BoardHears(first.Octets.Length);
        while (_toHost.TryPeek(out var first) && first.At <= _now)
            foreach (var octet in _toHost.Dequeue().Octets)
                if (_ofHost.Push(octet) == DecoderEvent.Frame)
                    link.Receive(_ofHost.Frame, _now);
    }

    private void BoardHears(int length)
    {
        FrameHeader.TryRead(_ofBoard.Frame, out var header, out var body);
        if (header.Type == MessageType.Hello && Hello.TryRead(body, out var hello))
        {
            _receiver.Open(hello.Token);
            _welcomeIsDue = true;
            return;
        }

        if (header.Type == MessageType.Beat)
            _receiver.HearBeat(header.Session, header.Number);
        else if (_receiver.Accept(header.Session, header.Number) == FrameVerdict.New)
            (_delivered, _deliveredOctets) = (_delivered + 1, _deliveredOctets + length);
        _statusIsDue = true;
    }
}
