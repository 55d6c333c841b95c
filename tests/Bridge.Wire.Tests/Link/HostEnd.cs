using System.Buffers;

namespace Bridge.Wire.Tests;

/// <summary>A LinkSender with a clock in milliseconds and a decoder for what it sends.</summary>
internal sealed class HostEnd
{
    public const ushort Token = 0x1234;

    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();

    public HostEnd(LinkSettings? settings = null) => Link = new LinkSender(settings ?? new LinkSettings(), _output);

    public LinkSender Link { get; }

    public static Welcome Welcome { get; } = new()
    {
        Token = Token,
        WireVersion = 1,
        FirmwareMajor = 0,
        FirmwareMinor = 1,
        Widths = AxisWidths.Four,
        MaxContent = 64,
        QueueRecords = 16,
        StoreBytes = 256,
        ResetReason = ResetReason.PowerOn,
        State = MachineState.Aborted,
    };

    public static Status Status { get; } = new()
    {
        AnswerNumber = 0,
        Answer = Answer.Accepted,
        State = MachineState.Idle,
        Cause = StateCause.None,
        Inputs = BoardInputs.None,
        RunId = 0,
        RecordsTaken = 0,
        RecordsLimit = 0,
        RecordsDone = 0,
        CellsDone = 0,
        X = 0,
        Y = 0,
        Layer = 0,
        Head = 0,
        Working = false,
    };

    public static TimeSpan Ms(double milliseconds) => TimeSpan.FromMilliseconds(milliseconds);

    /// <summary>An end whose session was opened at time 0 and welcomed at time 10 ms.</summary>
    public static HostEnd Opened(LinkSettings? settings = null)
    {
        var host = new HostEnd(settings);
        host.Link.Open(Token, Ms(0));
        Assert.True(host.Hear(Welcome, expected: 0, atMs: 10));
        host.Sent();
        return host;
    }

    public bool Hear<T>(in T message, byte expected, double atMs, byte session = (byte)(Token & 0xFF))
        where T : struct, IMessage
    {
        var frame = new byte[FrameFormat.MaxContent];
        return Link.Receive(frame.AsSpan(0, FrameHeader.Compose(frame, session, expected, message)), Ms(atMs));
    }

    public bool HearStatus(byte expected, double atMs) => Hear(Status, expected, atMs);

    public bool SendCommand(double atMs) => Link.TrySend(new Command(MachineCommand.Reset), Ms(atMs), out _);

    /// <summary>What has been sent since the last call, as type and number.</summary>
    public List<string> Sent()
    {
        var sent = new List<string>();
        foreach (var frame in Decoding.Frames(_decoder, _output.WrittenSpan.ToArray()))
        {
            Assert.True(FrameHeader.TryRead(frame, out var header, out _));
            Assert.Equal(Link.Session, header.Session);
            sent.Add($"{header.Type} {header.Number}");
        }
        _output.ResetWrittenCount();
        return sent;
    }

    public List<string> SentByTick(double atMs)
    {
        Link.Tick(Ms(atMs));
        return Sent();
    }
}
