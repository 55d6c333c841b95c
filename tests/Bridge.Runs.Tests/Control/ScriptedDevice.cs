using System.Buffers;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>A device that does everything at once and can be told to misbehave. It is its own line: octets take no time.</summary>
internal sealed class ScriptedDevice(VirtualTime time) : ILine
{
    private readonly FrameDecoder _decoder = new();
    private readonly LinkReceiver _link = new();
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly Dictionary<MessageType, int> _heard = [];
    private int _taken; // octets of the output that were read
    private byte _answerNumber;
    private Answer _answer;

    public MachineState State { get; set; } = MachineState.Aborted;

    public StateCause Cause { get; set; } = StateCause.PowerOn;

    public ushort RunId { get; set; }

    public uint Count { get; private set; }

    public uint Taken { get; private set; }

    public uint Done { get; set; }

    public uint Cells { get; set; }

    public byte Version { get; set; } = Hello.CurrentVersion;

    public byte QueueRecords { get; init; } = 16;

    /// <summary>Whether it hears nothing and says nothing any more.</summary>
    public bool IsDead { get; set; }

    /// <summary>Whether it executes records as they come.</summary>
    public bool Executes { get; set; } = true;

    /// <summary>Whether two STOP octets abort it.</summary>
    public bool HeedsStop { get; set; } = true;

    /// <summary>Its answer to a numbered message, by type and how many of the type came before; none where it answers as it should.</summary>
    public Func<MessageType, int, Answer?> Refuses { get; set; } = (_, _) => null;

    /// <summary>What it says in place of a Status; null for nothing.</summary>
    public Func<Status, Status?> Says { get; set; } = status => status;

    /// <summary>What it tells of its references, by how often it was asked for them before; null for nothing, as where it is lost on the way.</summary>
    public Func<int, References?> Tells { get; set; } = _ => null;

    /// <summary>Called after each message.</summary>
    public Action<MessageType>? Heard { get; set; }

    public List<MachineCommand> Commands { get; } = [];

    public List<TimeSpan> Stops { get; } = [];

    public bool IsOpen => ClosedBecause is null;

    public string? ClosedBecause { get; set; }

    public Status Status => new()
    {
        AnswerNumber = _answerNumber,
        Answer = _answer,
        State = State,
        Cause = Cause,
        Inputs = BoardInputs.None,
        RunId = RunId,
        RecordsTaken = Taken,
        RecordsLimit = Math.Min(Count, Taken + (Executes ? QueueRecords : QueueRecords - (Taken - Done))),
        RecordsDone = Done,
        CellsDone = Cells,
        X = 0,
        Y = 0,
        Layer = 0,
        Head = 0,
        Working = false,
        Gap = _link.Gap,
    };

    public void Write(ReadOnlySpan<byte> octets)
    {
        var isStop = false;
        foreach (var octet in octets)
        {
            var found = _decoder.Push(octet);
            isStop |= found == DecoderEvent.Stop;
            if (found == DecoderEvent.Frame && !IsDead && FrameHeader.TryRead(_decoder.Frame, out var header, out var body))
                Hear(header, body);
        }

        if (isStop)
            HearStop();
    }

    public int Read(Span<byte> octets)
    {
        var left = _output.WrittenSpan[_taken..];
        var count = Math.Min(left.Length, octets.Length);
        left[..count].CopyTo(octets);
        _taken += count;
        if (_taken < _output.WrittenCount)
            return count;
        _output.ResetWrittenCount();
        _taken = 0;
        return count;
    }

    public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation)
    {
        if (_output.WrittenCount == 0 && IsOpen)
            time.AdvanceTo(time.Now + atMost);
        return default;
    }

    /// <summary>Changes its state and says so.</summary>
    public void Enter(MachineState state, StateCause cause)
    {
        (State, Cause) = (state, cause);
        Say(Status);
    }

    public void Say(Status status)
    {
        if (!IsDead && _link.IsOpen && Says(status) is { } said)
            FrameEncoder.Encode(_link.Session, _link.Expected, said, _output);
    }

    /// <summary>Wakes up as after a reset: without a session, a setup or a run.</summary>
    public void Reset()
    {
        _link.Close();
        (State, Cause, RunId, Count, Taken, Done, Cells) = (MachineState.Aborted, StateCause.PowerOn, 0, 0, 0, 0, 0);
    }

    public void Dispose() => ClosedBecause ??= "closed by the host";

    private void HearStop()
    {
        Stops.Add(time.Now);
        if (HeedsStop && !IsDead)
            Enter(MachineState.Aborted, StateCause.StopOctets);
    }

    private void Hear(FrameHeader header, ReadOnlySpan<byte> body)
    {
        if (header.Type == MessageType.Hello)
            Welcome(body);
        else if (header.Type == MessageType.Beat && _link.HearBeat(header.Session, header.Number))
            Say(Status);
        else if (header.Type is (> MessageType.Beat and <= MessageType.Records) or MessageType.ReferenceRead)
            HearNumbered(header, body);
    }

    private void Welcome(ReadOnlySpan<byte> body)
    {
        Assert.True(Hello.TryRead(body, out var hello));
        if (Version == Hello.CurrentVersion)
            _link.Open(hello.Token);
        FrameEncoder.Encode((byte)hello.Token, _link.Expected, new Welcome
        {
            Token = hello.Token,
            WireVersion = Version,
            FirmwareMajor = 0,
            FirmwareMinor = 1,
            Widths = AxisWidths.Four | AxisWidths.Eight | AxisWidths.Twelve,
            MaxContent = FrameFormat.MaxContent,
            QueueRecords = QueueRecords,
            StoreBytes = 0,
            ResetReason = ResetReason.PowerOn,
            State = State,
        }, _output);
        Heard?.Invoke(MessageType.Hello);
    }

    private void HearNumbered(FrameHeader header, ReadOnlySpan<byte> body)
    {
        var verdict = _link.Accept(header.Session, header.Number);
        if (verdict == FrameVerdict.ForeignSession)
            return;
        if (verdict == FrameVerdict.New)
        {
            var before = _heard.GetValueOrDefault(header.Type);
            _heard[header.Type] = before + 1;
            var answer = Refuses(header.Type, before) ?? Take(header.Type, body);
            if (header.Type != MessageType.Records || answer != Answer.Accepted)
                (_answerNumber, _answer) = (header.Number, answer);
            if (header.Type == MessageType.ReferenceRead && answer == Answer.Accepted && Tells(before) is { } told)
                FrameEncoder.Encode(_link.Session, _link.Expected, told, _output);
        }

        Say(Status);
        if (verdict == FrameVerdict.New)
            Heard?.Invoke(header.Type);
    }

    private Answer Take(MessageType type, ReadOnlySpan<byte> body)
    {
        switch (type)
        {
            case MessageType.Begin:
                Assert.True(Begin.TryRead(body, out var begin));
                if (State != MachineState.Idle)
                    return Answer.WrongState;
                (RunId, Count, Taken, Done, Cells) = (begin.RunId, begin.RecordCount, 0, 0, 0);
                return Answer.Accepted;
            case MessageType.Command:
                Assert.True(Command.TryRead(body, out var command));
                return Obey(command.Value);
            case MessageType.Records:
                Assert.True(Records.TryRead(body, out var records));
                return Take(records);
            default:
                return Answer.Accepted;
        }
    }

    private Answer Take(Records records)
    {
        if (records.FirstIndex != Taken)
            return Answer.IndexMismatch;
        Taken += (uint)(records.Octets.Length / RecordBytes);
        Execute();
        return Answer.Accepted;
    }

    /// <summary>Octets of a record.</summary>
    public int RecordBytes { get; init; } = 3;

    private Answer Obey(MachineCommand command)
    {
        Commands.Add(command);
        if (StateTable.Next(State, command) is not { } next)
            return Answer.WrongState;
        (State, Cause) = (StateTable.Completed(next) is { } end && StateTable.IsActing(next) ? end : next, StateCause.Operator);
        Execute();
        return Answer.Accepted;
    }

    private void Execute()
    {
        if (State != MachineState.Execute || !Executes)
            return;
        Done = Taken;
        if (Done == Count)
            (State, Cause) = (MachineState.Complete, StateCause.JobComplete);
    }
}
