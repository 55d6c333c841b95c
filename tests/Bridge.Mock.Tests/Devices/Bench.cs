using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

/// <summary>
/// A device without a line: frames go straight in, and what it says is kept. The host beats every 100 ms unless told to be
/// quiet.
/// </summary>
internal sealed class Bench
{
    private static readonly TimeSpan BeatInterval = TimeSpan.FromMilliseconds(100);

    private readonly FrameDecoder _decoder = new();
    private byte _session;
    private byte _number;

    public Bench(Machine machine, MockFaults? faults = null, int seed = 1)
    {
        Machine = machine;
        Device = new MockDevice(new Gantry(machine, seed), faults);
    }

    public Machine Machine { get; }

    public MockDevice Device { get; }

    public TimeSpan Now { get; private set; }

    public bool IsQuiet { get; set; }

    public List<Status> Said { get; } = [];

    public Welcome? Welcome { get; private set; }

    public byte Expected { get; private set; }

    public Status Last => Said[^1];

    public IEnumerable<MachineState> StatesSaid => Said.Select(status => status.State).Aggregate(new List<MachineState>(), (states, state) =>
    {
        if (states.Count == 0 || states[^1] != state)
            states.Add(state);
        return states;
    });

    public void Hello(ushort token = 0x1234)
    {
        (_session, _number) = ((byte)token, 0);
        Send(0, new Hello(Wire.Hello.CurrentVersion, token));
    }

    /// <summary>Sends a numbered message and gives the answer to it.</summary>
    public Answer Tell<T>(in T message)
        where T : struct, IMessage, allows ref struct
    {
        var number = _number++;
        Send(number, message);
        Assert.Equal(_number, Expected);
        return Last.AnswerNumber == number ? Last.Answer : Answer.Accepted;
    }

    public Answer Tell(MachineCommand command) => Tell(new Command(command));

    public Answer TellRecords(uint first, params Record[] records)
    {
        var width = Machine.Width;
        var octets = new byte[records.Length * width.Bytes];
        for (var index = 0; index < records.Length; index++)
            RecordCodec.Write(width, records[index], octets.AsSpan(index * width.Bytes));
        return Tell(new Records(first, octets));
    }

    public void Send<T>(byte number, in T message, byte? session = null)
        where T : struct, IMessage, allows ref struct
    {
        var output = new System.Buffers.ArrayBufferWriter<byte>();
        FrameEncoder.Encode(session ?? _session, number, message, output);
        Receive(output.WrittenSpan);
    }

    public void Receive(ReadOnlySpan<byte> octets)
    {
        Device.Receive(octets, Now);
        Listen();
    }

    public void Beat() => Send(_number, new Beat());

    public void Jog(Jog jog) => Send(_number, jog);

    /// <summary>Lets time pass, beating, until something holds; false if it did not within the time.</summary>
    public bool Until(Func<bool> holds, double seconds = 600)
    {
        var end = Now + TimeSpan.FromSeconds(seconds);
        var beat = Now;
        while (!holds())
        {
            if (Now >= end)
                return false;
            var next = Device.NextEvent ?? end;
            next = next < end ? next : end;
            if (!IsQuiet && beat + BeatInterval < next)
                next = beat + BeatInterval;
            Now = next > Now ? next : Now;
            Device.AdvanceTo(Now);
            Listen();
            if (!IsQuiet && Now >= beat + BeatInterval)
            {
                beat = Now;
                Beat();
            }
        }

        return true;
    }

    public void Reach(MachineState state) => Assert.True(Until(() => Device.State == state), $"{state} is not reached: {Device.State} {Device.Cause}");

    public void Pass(double seconds) => Until(() => false, seconds);

    public void SetUp()
    {
        Hello();
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Clear));
        Assert.Equal(Answer.Accepted, Tell(TestMachines.SetMachineOf(Machine)));
        foreach (var axis in TestMachines.SetAxesOf(Machine))
            Assert.Equal(Answer.Accepted, Tell(axis));
        foreach (var head in TestMachines.SetHeadsOf(Machine))
            Assert.Equal(Answer.Accepted, Tell(head));
    }

    public void GetReady()
    {
        SetUp();
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Reset));
        Reach(MachineState.Idle);
    }

    /// <summary>Begins a run of up to 16 records and starts it.</summary>
    public void Start(params Record[] records)
    {
        Assert.Equal(Answer.Accepted, Tell(new Begin(7, (uint)records.Length)));
        Assert.Equal(Answer.Accepted, TellRecords(0, records));
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Start));
    }

    public void ReachCells(long cells) => Assert.True(Until(() => Device.Gantry.CellsWorked >= cells));

    private void Listen()
    {
        foreach (var octet in Device.Take())
        {
            if (_decoder.Push(octet) != DecoderEvent.Frame)
                continue;
            Assert.True(FrameHeader.TryRead(_decoder.Frame, out var header, out var body));
            Expected = header.Number;
            if (header.Type == MessageType.Welcome)
                Welcome = Wire.Welcome.TryRead(body, out var welcome) ? welcome : null;
            else if (Status.TryRead(body, out var status))
                Said.Add(status);
            else
                Assert.Fail($"not a message: {Convert.ToHexString(_decoder.Frame)}");
        }
    }
}
