using System.Buffers;
using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>
/// A host that says what a test tells it to, one thing at a time, and keeps all that the device says. It beats every 100 ms
/// unless told to be quiet.
/// </summary>
internal sealed class Host(IDeviceUnderTest device, Machine machine)
{
    public static readonly TimeSpan Tick = TimeSpan.FromMilliseconds(1);

    private static readonly TimeSpan Instant = TimeSpan.FromMicroseconds(250);
    private static readonly TimeSpan BeatInterval = TimeSpan.FromMilliseconds(100);

    private readonly FrameDecoder _decoder = new();
    private TimeSpan _lastBeat;

    public IDeviceUnderTest Device => device;

    public Machine Machine => machine;

    public byte Session { get; set; }

    /// <summary>The number of the next message.</summary>
    public byte Number { get; set; }

    public bool IsQuiet { get; set; }

    /// <summary>Each Status since the test last cleared it.</summary>
    public List<Status> Said { get; } = [];

    public Status Last { get; private set; }

    /// <summary>The states in <see cref="Said"/>, each once.</summary>
    public IReadOnlyList<MachineState> StatesSaid =>
        [.. Said.Select(status => status.State).Where((state, index) => index == 0 || Said[index - 1].State != state)];

    public Welcome? Welcome { get; private set; }

    /// <summary>The octets of the store that came last.</summary>
    public (int ImageLength, int Offset, byte[] Octets) Stored { get; private set; }

    /// <summary>What its references found, when it said so last.</summary>
    public References? References { get; private set; }

    /// <summary>Frames that the device has sent.</summary>
    public int Frames { get; private set; }

    /// <summary>The number that the device expects next.</summary>
    public byte Expected { get; private set; }

    public IReadOnlyList<Position> Worked => device.Worked;

    public MachineState State => Last.State;

    /// <summary>Opens a session.</summary>
    public Welcome Hello(ushort token = 0x1234)
    {
        (Session, Number, Welcome) = ((byte)token, 0, null);
        Send(0, new Hello(Bridge.Wire.Hello.CurrentVersion, token));
        Assert.True(Wait(() => Welcome is not null, 0.1), "no Welcome");
        return Welcome!.Value;
    }

    /// <summary>Sends a numbered message and gives the answer to it.</summary>
    public Answer Tell<T>(in T message)
        where T : struct, IMessage, allows ref struct
    {
        var number = Number++;
        Send(number, message);
        return AnswerTo(number, isTold: typeof(T) != typeof(Records));
    }

    public Answer Tell(MachineCommand command) => Tell(new Command(command));

    /// <summary>Sends two commands without a pause and gives the answer to the second; the first must be accepted.</summary>
    public Answer TellBoth(MachineCommand first, MachineCommand second)
    {
        Said.Clear();
        var number = Number++;
        Send(number, new Command(first));
        Send(Number, new Command(second));
        var answer = AnswerTo(Number++);
        Assert.DoesNotContain(Said, status => status.AnswerNumber == number && status.Answer != Answer.Accepted);
        return answer;
    }

    public Answer TellRaw(byte type, params byte[] body)
    {
        var number = Number++;
        SendFrame([type, Session, number, .. body]);
        return AnswerTo(number, isTold: type != (byte)MessageType.Records);
    }

    public Answer TellRecords(uint first, params Record[] records) => Tell(new Records(first, Octets(records)));

    public byte[] Octets(params Record[] records)
    {
        var width = machine.Width;
        var octets = new byte[records.Length * width.Bytes];
        for (var index = 0; index < records.Length; index++)
            RecordCodec.Write(width, records[index], octets.AsSpan(index * width.Bytes));
        return octets;
    }

    public void Send<T>(byte number, in T message, byte? session = null)
        where T : struct, IMessage, allows ref struct
    {
        var output = new ArrayBufferWriter<byte>();
        FrameEncoder.Encode(session ?? Session, number, message, output);
        device.Receive(output.WrittenSpan);
    }

    public void SendFrame(byte[] frame)
    {
        var output = new ArrayBufferWriter<byte>();
        FrameEncoder.Encode(frame, output);
        device.Receive(output.WrittenSpan);
    }

    public void Beat()
    {
        _lastBeat = device.Now;
        Send(Number, new Beat());
    }

    /// <summary>Beats and waits for what the device says to it.</summary>
    public Status Ask()
    {
        var frames = Frames;
        Beat();
        Assert.True(Wait(() => Frames > frames, 0.1), "a beat is not answered");
        Pass(0.002);
        return Last;
    }

    /// <summary>Lets time pass, beating, until something holds; false if it did not within the time.</summary>
    public bool Until(Func<bool> holds, double seconds = 300)
    {
        var end = device.Now + TimeSpan.FromSeconds(seconds);
        while (!holds())
        {
            if (device.Now >= end)
                return false;
            if (!IsQuiet && Session != 0 && device.Now >= _lastBeat + BeatInterval)
                Beat();
            device.Advance(Tick);
            Listen();
        }

        return true;
    }

    public void Pass(double seconds) => Until(() => false, seconds);

    public void Reach(MachineState state, double seconds = 300) =>
        Assert.True(Until(() => Last.State == state || Said.Any(status => status.State == state), seconds),
            $"{state} is not reached: {Last.State} {Last.Cause}");

    public void ReachCells(int cells) => Assert.True(Until(() => device.Worked.Count >= cells), $"{cells} cells are not worked");

    public void SetUp()
    {
        Hello();
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Clear));
        Reach(MachineState.Stopped, 1);
        TellMachine();
    }

    public void TellMachine()
    {
        Assert.Equal(Answer.Accepted, Tell(SetupMessages.OfMachine(machine)));
        foreach (var axis in SetupMessages.OfAxes(machine))
            Assert.Equal(Answer.Accepted, Tell(axis));
        foreach (var head in SetupMessages.OfHeads(machine))
            Assert.Equal(Answer.Accepted, Tell(head));
    }

    /// <summary>From power-on to Idle; where the device has been there before, it goes back to that moment.</summary>
    public void GetReady()
    {
        if (device.GetReady() is Knowledge known)
        {
            (Session, Number, Expected, Last, Welcome, _lastBeat) = known;
            return;
        }

        SetUp();
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Reset));
        Reach(MachineState.Idle);
        Said.Clear();
        device.KeepReady(new Knowledge(Session, Number, Expected, Last, Welcome, _lastBeat));
    }

    /// <summary>Begins a run of up to 16 records and starts it.</summary>
    public void Start(params Record[] records)
    {
        Assert.Equal(Answer.Accepted, Tell(new Begin(7, (uint)records.Length)));
        Assert.Equal(Answer.Accepted, TellRecords(0, records));
        Said.Clear();
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Start));
    }

    /// <summary>Streams a whole run as the credit allows and tells how many seconds it took from the start to the end.</summary>
    public double Run(Record[] records)
    {
        Assert.Equal(Answer.Accepted, Tell(new Begin(11, (uint)records.Length)));
        var sent = SendMore(records, 0);
        Said.Clear();
        Assert.Equal(Answer.Accepted, Tell(MachineCommand.Start));
        var since = device.Now;
        while (sent < records.Length)
        {
            Assert.True(Until(() => Last.RecordsLimit > Last.RecordsTaken || Last.State == MachineState.Stopped));
            Assert.NotEqual(MachineState.Stopped, Last.State);
            sent = SendMore(records, sent);
        }

        Reach(MachineState.Complete);
        return (device.Now - since).TotalSeconds;
    }

    /// <summary>Tells something of the store, again for as long as it is busy.</summary>
    public Answer TellPatiently(byte type, params byte[] body)
    {
        var answer = Answer.StoreBusy;
        for (var time = 0; time < 500 && answer == Answer.StoreBusy; time++)
            if ((answer = TellRaw(type, body)) == Answer.StoreBusy)
                Pass(0.01);
        return answer;
    }

    /// <summary>Waits a short while without a beat.</summary>
    public bool Wait(Func<bool> holds, double seconds)
    {
        var end = device.Now + TimeSpan.FromSeconds(seconds);
        while (!holds() && device.Now < end)
        {
            device.Advance(Instant);
            Listen();
        }

        return holds();
    }

    private int SendMore(Record[] records, int sent)
    {
        var count = Math.Min(Records.MaxCount(machine.Width.Bytes), (int)(Last.RecordsLimit - Last.RecordsTaken));
        for (; count > 0; count = Math.Min(Records.MaxCount(machine.Width.Bytes), (int)(Last.RecordsLimit - Last.RecordsTaken)))
        {
            Assert.Equal(Answer.Accepted, TellRecords((uint)sent, records[sent..(sent + count)]));
            sent += count;
        }

        return sent;
    }

    // Of records only a refusal is told.
    private Answer AnswerTo(byte number, bool isTold = true)
    {
        Assert.True(Wait(() => Expected == (byte)(number + 1), 0.2), $"message {number} is not acknowledged: {Expected} is expected");
        if (isTold)
            Assert.Equal(number, Last.AnswerNumber);
        return Last.AnswerNumber == number ? Last.Answer : Answer.Accepted;
    }

    private void Listen()
    {
        foreach (var octet in device.Take())
            if (_decoder.Push(octet) == DecoderEvent.Frame)
                Hear(_decoder.Frame);
    }

    private void Hear(ReadOnlySpan<byte> frame)
    {
        Assert.True(FrameHeader.TryRead(frame, out var header, out var body));
        Frames++;
        if (header.Type == MessageType.Stored && Bridge.Wire.Stored.TryRead(body, out var stored))
        {
            Stored = (stored.ImageLength, stored.Offset, stored.Octets.ToArray()); // the answer is in the Status that follows
            return;
        }

        if (header.Type == MessageType.References && Bridge.Wire.References.TryRead(body, out var references))
        {
            References = references;
            return;
        }

        Expected = header.Number;
        if (header.Type == MessageType.Welcome && Bridge.Wire.Welcome.TryRead(body, out var welcome))
            Welcome = welcome;
        else if (header.Type == MessageType.Status && Status.TryRead(body, out var status))
            Said.Add(Last = status);
        else
            Assert.Fail($"not a message: {Convert.ToHexString(frame)}");
    }

    private sealed record Knowledge(byte Session, byte Number, byte Expected, Status Last, Welcome? Welcome, TimeSpan LastBeat);
}
