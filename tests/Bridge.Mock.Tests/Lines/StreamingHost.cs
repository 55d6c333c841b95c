using System.Buffers;
using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

/// <summary>
/// The least host that can stream a job over a line: it sets up, resets, begins, starts and sends records as credit allows.
/// One message at a time but for records.
/// </summary>
internal sealed class StreamingHost
{
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly LinkSender _link;
    private readonly ILine _line;
    private readonly TimeProvider _time;
    private readonly long _begun;
    private readonly byte[] _buffer = new byte[4096];

    public StreamingHost(ILine line, TimeProvider time)
    {
        (_line, _time, _begun) = (line, time, time.GetTimestamp());
        _link = new LinkSender(new LinkSettings(), _output);
    }

    public Status? Last { get; private set; }

    public LinkSender Link => _link;

    private TimeSpan Now => _time.GetElapsedTime(_begun);

    public async Task Open(ushort token = 0x4321)
    {
        _link.Open(token, Now);
        await Until(() => _link.State != LinkState.Opening);
    }

    public async Task SetUp(Machine machine)
    {
        await Tell(new Command(MachineCommand.Clear));
        await Tell(TestMachines.SetMachineOf(machine));
        foreach (var axis in TestMachines.SetAxesOf(machine))
            await Tell(axis);
        foreach (var head in TestMachines.SetHeadsOf(machine))
            await Tell(head);
        await Tell(new Command(MachineCommand.Reset));
        Assert.True(await Until(() => Last?.State is MachineState.Idle));
    }

    public async Task Tell<T>(T message)
        where T : struct, IMessage
    {
        Assert.True(_link.TrySend(message, Now, out var number));
        Assert.True(await Until(() => _link.InFlight == 0));
        Assert.Equal((number, Answer.Accepted), (Last!.Value.AnswerNumber, Last.Value.Answer));
    }

    /// <summary>Streams an unrolled job to its end, or to where it stops.</summary>
    public async Task Stream(RecordWidth width, ReadOnlyMemory<byte> records)
    {
        var count = (uint)(records.Length / width.Bytes);
        var sent = await Begin(width, records);
        Assert.True(await Until(() =>
        {
            while (sent < Math.Min(count, Last!.Value.RecordsLimit) && _link.CanSend)
            {
                var part = (int)Math.Min(Math.Min(count, Last.Value.RecordsLimit) - sent, (uint)Records.MaxCount(width.Bytes));
                _link.TrySend(new Records(sent, records.Span.Slice((int)sent * width.Bytes, part * width.Bytes)), Now, out _);
                sent += (uint)part;
            }

            return Last!.Value.State is MachineState.Complete or MachineState.Aborted or MachineState.Stopped or MachineState.Held;
        }));
    }

    /// <summary>Begins a run, sends as many records as one message holds and starts it; gives how many that were.</summary>
    public async Task<uint> Begin(RecordWidth width, ReadOnlyMemory<byte> records)
    {
        var count = records.Length / width.Bytes;
        var first = Math.Min(Math.Min(count, Records.MaxCount(width.Bytes)), MockDevice.QueueRecords);
        await Tell(new Begin(1, (uint)count));
        Assert.True(_link.TrySend(new Records(0, records.Span[..(first * width.Bytes)]), Now, out _));
        await Tell(new Command(MachineCommand.Start));
        return (uint)first;
    }

    public async Task<bool> Until(Func<bool> holds)
    {
        while (!holds())
        {
            if (!_line.IsOpen || _link.State == LinkState.Failed)
                return false;
            _link.Tick(Now);
            _line.Write(_output.WrittenSpan);
            _output.ResetWrittenCount();
            await _line.WaitAsync(_link.NextDeadline is { } due && due > Now ? due - Now : TimeSpan.FromMilliseconds(1), CancellationToken.None);
            for (var length = _line.Read(_buffer); length > 0; length = _line.Read(_buffer))
                Hear(_buffer.AsSpan(0, length));
        }

        return true;
    }

    private void Hear(ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            if (_decoder.Push(octet) == DecoderEvent.Frame && _link.Receive(_decoder.Frame, Now)
                && FrameHeader.TryRead(_decoder.Frame, out var header, out var body)
                && header.Type == MessageType.Status && Status.TryRead(body, out var status))
                Last = status;
    }
}
