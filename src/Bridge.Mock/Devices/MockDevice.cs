using System.Buffers;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>
/// A device that speaks the wire to the octet and drives a gantry. It knows of its machine what the wire tells it. Nothing in
/// it waits: octets and the time go in, octets come out. The time starts at zero and never goes back.
/// </summary>
public sealed class MockDevice
{
    private static readonly TimeSpan StatusInterval = TimeSpan.FromMilliseconds(50);

    private readonly FrameDecoder _decoder = new();
    private readonly LinkReceiver _link = new();
    private readonly ArrayBufferWriter<byte> _output = new(1024);
    private readonly FaultSchedule _faults;
    private readonly Controller _controller;
    private readonly bool _isSilent;
    private readonly ResetReason _resetReason;
    private byte _answerNumber;
    private Answer _answer;
    private TimeSpan _now;
    private TimeSpan _lastHeard;
    private TimeSpan _lastStatus;

    /// <summary>A device on a gantry, as after power-on.</summary>
    /// <param name="gantry">What it drives.</param>
    /// <param name="faults">What goes wrong in it; by default nothing.</param>
    public MockDevice(Gantry gantry, MockFaults? faults = null)
        : this(gantry, new FaultSchedule(faults ?? MockFaults.None, gantry), faults is { IsSilent: true }, new JobStore(), ResetReason.PowerOn, default)
    {
    }

    private MockDevice(Gantry gantry, FaultSchedule faults, bool isSilent, JobStore store, ResetReason reason, TimeSpan now)
    {
        (Gantry, _faults, _isSilent, _resetReason, _now) = (gantry, faults, isSilent, reason, now);
        gantry.DriversAreOn = false;
        _controller = new Controller(gantry, faults, QueueRecords, store, reason == ResetReason.Watchdog ? StateCause.Watchdog : StateCause.PowerOn);
        _controller.StateChanged += SendStatus;
        _controller.AdvanceTo(now.TotalSeconds);
    }

    /// <summary>
    /// Raised when another act than before is being done, the default one for none: the act with its lengths in steps, when it began, and the present,
    /// in seconds since the device's beginning.
    /// </summary>
    public event Action<Act, double, double>? ActChanged
    {
        add => _controller.ActChanged += value;
        remove => _controller.ActChanged -= value;
    }

    /// <summary>Raised when it has gone on up to a time: at least at every cell, every end of an act and every change of state.</summary>
    public event Action<TimeSpan>? WentOn;

    /// <summary>Records that its queue holds.</summary>
    public const byte QueueRecords = 16;

    /// <summary>What it drives.</summary>
    public Gantry Gantry { get; }

    /// <summary>Its state.</summary>
    public MachineState State => _controller.State;

    /// <summary>Why it is in that state.</summary>
    public StateCause Cause => _controller.Cause;

    /// <summary>What its frame decoder has seen.</summary>
    public FrameCounters Frames => _decoder.Counters;

    /// <summary>All that it would tell a host now.</summary>
    public Status Status
    {
        get
        {
            var run = _controller.Run;
            var position = run?.Position ?? default;
            return new Status
            {
                AnswerNumber = _answerNumber,
                Answer = _answer,
                State = State,
                Cause = Cause,
                Inputs = _controller.Inputs,
                RunId = run?.RunId ?? 0,
                RecordsTaken = run?.Taken ?? 0,
                RecordsLimit = run?.Limit ?? 0,
                RecordsDone = run?.Done ?? 0,
                CellsDone = run?.CellsDone ?? 0,
                X = (ushort)position.Cell.X,
                Y = (ushort)position.Cell.Y,
                Layer = (ushort)position.Layer,
                Head = (byte)position.Head,
                Working = _controller.IsWorking,
                Gap = _link.Gap,
            };
        }
    }

    /// <summary>When it next does something by itself; null while it only waits for the host or for hands.</summary>
    public TimeSpan? NextEvent
    {
        get
        {
            var next = Math.Min(_controller.NextEvent, Math.Min(StatusDue.TotalSeconds, SilenceDue.TotalSeconds));
            return next >= TimeSpan.MaxValue.TotalSeconds ? null : TimeSpan.FromTicks((long)Math.Ceiling(next * TimeSpan.TicksPerSecond));
        }
    }

    /// <summary>Whether a fault has cut its line; whoever holds the line takes note and sets it back.</summary>
    internal bool LineIsCut
    {
        get => _faults.LineIsCut;
        set => _faults.LineIsCut = value;
    }

    private TimeSpan StatusDue => _link.IsOpen && _controller.IsBusy ? _lastStatus + StatusInterval : TimeSpan.MaxValue;

    private TimeSpan SilenceDue => _link.IsOpen && _controller.MindsSilence ? _lastHeard + _controller.LineTimeout : TimeSpan.MaxValue;

    /// <summary>
    /// Goes on up to a time since its beginning. What it says on the way is in <see cref="Take"/>, all of it as of that time.
    /// </summary>
    public void AdvanceTo(TimeSpan now)
    {
        while (NextEvent is { } next && next <= now)
            StepTo(next);
        StepTo(now);
    }

    /// <summary>Hears octets at a time since its beginning.</summary>
    public void Receive(ReadOnlySpan<byte> octets, TimeSpan now)
    {
        AdvanceTo(now);
        foreach (var octet in octets)
        {
            switch (_decoder.Push(octet))
            {
                case DecoderEvent.Stop:
                    _controller.Abort(StateCause.StopOctets);
                    break;
                case DecoderEvent.Frame:
                    Hear(_decoder.Frame);
                    break;
            }
        }

        AdvanceTo(now);
    }

    /// <summary>
    /// The device after a reset at a time since its beginning: the gantry stays as it is and so does the stored job; all else is forgotten. This one is
    /// not to be used any more.
    /// </summary>
    public MockDevice Restart(ResetReason reason, TimeSpan now)
    {
        AdvanceTo(now);
        _controller.Store.LosePower(_now.TotalSeconds);
        return new MockDevice(Gantry, _faults, _isSilent, _controller.Store, reason, _now);
    }

    /// <summary>Takes the octets that it has sent since the last time; the span stands until the device goes on.</summary>
    public ReadOnlySpan<byte> Take()
    {
        var sent = _output.WrittenSpan;
        _output.ResetWrittenCount();
        return sent;
    }

    private void StepTo(TimeSpan now)
    {
        if (now > _now)
            _now = now;
        _controller.AdvanceTo(_now.TotalSeconds);
        if (_now >= SilenceDue)
            _controller.StopForTheLine(StateCause.LineSilent);
        if (_now >= StatusDue)
            SendStatus();
        WentOn?.Invoke(_now);
    }

    private void Hear(ReadOnlySpan<byte> frame)
    {
        if (!FrameHeader.TryRead(frame, out var header, out var body))
            return;
        if (header.Type == MessageType.Hello)
            Open(body);
        else if (header.Type == MessageType.Beat)
            HearBeat(header, body);
        else if (header.Type == MessageType.Jog)
            HearJog(header, body);
        else if ((byte)header.Type is > (byte)MessageType.Beat and < 0x80)
            HearNumbered(header, body);
    }

    private void Open(ReadOnlySpan<byte> body)
    {
        if (!Hello.TryRead(body, out var hello))
            return;
        var isOurs = hello.WireVersion == Hello.CurrentVersion;
        if (isOurs)
            (_lastHeard, _controller.HasHost) = (_now, true);
        if (isOurs && _link.Open(hello.Token))
        {
            (_answerNumber, _answer) = (0, Answer.Accepted);
            _controller.StopForTheLine(StateCause.HostRestarted);
        }

        Send((byte)hello.Token, isOurs ? _link.Expected : (byte)0, new Welcome
        {
            Token = hello.Token,
            WireVersion = Hello.CurrentVersion,
            FirmwareMajor = 0,
            FirmwareMinor = 1,
            Widths = AxisWidths.Four | AxisWidths.Eight | AxisWidths.Twelve,
            MaxContent = FrameFormat.MaxContent,
            QueueRecords = QueueRecords,
            StoreBytes = JobStore.Bytes,
            ResetReason = _resetReason,
            State = State,
        });
    }

    private void HearBeat(FrameHeader header, ReadOnlySpan<byte> body)
    {
        if (!Beat.TryRead(body, out _) || !_link.HearBeat(header.Session, header.Number))
            return;
        _lastHeard = _now;
        SendStatus();
    }

    private void HearJog(FrameHeader header, ReadOnlySpan<byte> body)
    {
        if (!Jog.TryRead(body, out var jog) || !_link.HearBeat(header.Session, header.Number))
            return;
        _lastHeard = _now;
        _controller.Jog(jog);
        SendStatus();
    }

    private void HearNumbered(FrameHeader header, ReadOnlySpan<byte> body)
    {
        var verdict = _link.Accept(header.Session, header.Number);
        if (verdict == FrameVerdict.ForeignSession)
            return;
        _lastHeard = _now;
        if (verdict == FrameVerdict.New)
            Execute(header, body);
        if (_controller.Store.Asked is not null)
            Send(_link.Session, _link.Expected, _controller.Store.Reading());
        if (_controller.ReferencesAreAsked)
            Send(_link.Session, _link.Expected, _controller.ReadReferences());
        SendStatus();
    }

    private void Execute(FrameHeader header, ReadOnlySpan<byte> body)
    {
        var before = (_answerNumber, _answer);
        if (header.Type != MessageType.Records) // the states that a command goes through are told on the way, and so is that it was accepted
            (_answerNumber, _answer) = (header.Number, Answer.Accepted);
        var answer = Messages.Execute(_controller, header.Type, body);
        (_answerNumber, _answer) = header.Type == MessageType.Records && answer == Answer.Accepted ? before : (header.Number, answer);
    }

    private void SendStatus()
    {
        if (!_link.IsOpen)
            return;
        _lastStatus = _now;
        Send(_link.Session, _link.Expected, Status);
    }

    private void Send<T>(byte session, byte number, in T message)
        where T : struct, IMessage, allows ref struct
    {
        if (!_isSilent)
            FrameEncoder.Encode(session, number, message, _output);
    }
}
