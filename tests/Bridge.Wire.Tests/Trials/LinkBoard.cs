using System.Buffers;

namespace Bridge.Wire.Tests;

/// <summary>A board that takes everything, by the link's own rules, and tells of it in the octets of the wire.</summary>
internal sealed class LinkBoard(TrialLine<byte[]> from, TrialLine<byte[]> to, BoardPace pace) : TrialBoard<byte[], byte[]>(from, to, pace)
{
    private readonly LinkReceiver _receiver = new();
    private readonly FrameDecoder _decoder = new();
    private readonly ArrayBufferWriter<byte> _output = new();
    private bool _welcomeIsDue;

    /// <summary>Messages taken.</summary>
    public long Taken { get; private set; }

    /// <summary>Their octets on the line.</summary>
    public long TakenOctets { get; private set; }

    /// <summary>Octets of a Status on the line.</summary>
    public static int StatusLength { get; } = Idle().Encoded(StatusOf(gap: false)).Length;

    private static Status StatusOf(bool gap) => new()
    {
        AnswerNumber = 9, Answer = Answer.Accepted, State = MachineState.Execute, Cause = StateCause.None, Inputs = default, RunId = 1,
        RecordsTaken = 1000, RecordsLimit = 1016, RecordsDone = 990, CellsDone = 3, X = 3, Y = 4, Layer = 0, Head = 0, Working = true, Gap = gap,
    };

    protected override void Hear(in TrialFrame<byte[]> frame)
    {
        foreach (var octet in LinkTrial.Arrived(frame))
            if (_decoder.Push(octet) == DecoderEvent.Frame)
                Hear(_decoder.Frame, frame.Length);
    }

    protected override (byte[] Told, int Length) Tell()
    {
        var octets = _welcomeIsDue ? Encoded(WelcomeOf()) : Encoded(StatusOf(_receiver.Gap));
        _welcomeIsDue = false;
        return (octets, octets.Length);
    }

    private void Hear(ReadOnlySpan<byte> frame, int length)
    {
        FrameHeader.TryRead(frame, out var header, out var body);
        IsDue = true;
        if (header.Type == MessageType.Hello && Hello.TryRead(body, out var hello))
            _welcomeIsDue = _receiver.Open(hello.Token);
        else if (header.Type == MessageType.Beat)
            _receiver.HearBeat(header.Session, header.Number);
        else if (_receiver.Accept(header.Session, header.Number) == FrameVerdict.New)
            (Taken, TakenOctets) = (Taken + 1, TakenOctets + length);
    }

    private static LinkBoard Idle()
    {
        var silent = new TrialLine<byte[]>(default, 0, new Random(1));
        return new LinkBoard(silent, silent, BoardPace.Firmware);
    }

    private Welcome WelcomeOf() => new()
    {
        Token = _receiver.Token, WireVersion = Hello.CurrentVersion, FirmwareMajor = 0, FirmwareMinor = 1, Widths = (AxisWidths)7,
        MaxContent = FrameFormat.MaxContent, QueueRecords = 16, StoreBytes = 0, ResetReason = ResetReason.PowerOn, State = MachineState.Idle,
    };

    private byte[] Encoded<T>(in T message)
        where T : struct, IMessage
    {
        _output.ResetWrittenCount();
        FrameEncoder.Encode(_receiver.Session, _receiver.Expected, message, _output);
        return _output.WrittenSpan.ToArray();
    }
}
