using System.Buffers;
using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Board.Emulator;

/// <summary>A host that does one thing at a time, for tests that say step by step what happens. It beats as hosts must.</summary>
public sealed class BoardHost
{
    private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(1);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly EmulatedBoard board;
    private readonly ArrayBufferWriter<byte> output = new();
    private readonly FrameDecoder decoder = new();
    private readonly byte[] buffer = new byte[256];
    private readonly List<Status> heard = [];

    public BoardHost(EmulatedBoard board)
    {
        this.board = board;
        Line = board.OpenLine();
        Link = new LinkSender(new LinkSettings(), output);
    }

    public BoardLine Line { get; }

    public LinkSender Link { get; }

    /// <summary>The last Status; it fails where none has come.</summary>
    public Status Last => heard[^1];

    /// <summary>The number that the board expected next when it sent the last Status.</summary>
    public byte LastNumber { get; private set; }

    /// <summary>Every Status that has come.</summary>
    public IReadOnlyList<Status> Heard => heard;

    /// <summary>Frames that arrived, good and bad.</summary>
    public FrameCounters Frames => decoder.Counters;

    private TimeSpan Now => board.Clock.GetElapsedTime(0);

    public bool Open(ushort token = 0x4321)
    {
        Link.Open(token, Now);
        return Until(() => Link.State != LinkState.Opening) && Link.State == LinkState.Open;
    }

    /// <summary>Sends a message and waits for its answer.</summary>
    public Answer Ask<T>(T message)
        where T : struct, IMessage
    {
        if (!Link.TrySend(message, Now, out var number) || !Until(() => Link.IsAcknowledged(number)))
            throw new TimeoutException($"The board does not acknowledge {T.Type}.");
        return Last.AnswerNumber == number ? Last.Answer : throw new InvalidOperationException("The answer is about another message.");
    }

    public Answer Ask(MachineCommand command) => Ask(new Command(command));

    /// <summary>Tells the board of its machine; every message must be accepted.</summary>
    public void TellMachine()
    {
        Require(Ask(SetupMessages.OfMachine(board.Machine)));
        foreach (var axis in SetupMessages.OfAxes(board.Machine))
            Require(Ask(axis));
        foreach (var head in SetupMessages.OfHeads(board.Machine))
            Require(Ask(head));
    }

    /// <summary>From power-on to Idle: referenced.</summary>
    public void MakeReady()
    {
        if (!Open())
            throw new TimeoutException("The board does not answer.");
        TellMachine();
        Require(Ask(MachineCommand.Clear));
        if (!Until(() => Last.State == MachineState.Stopped))
            throw new TimeoutException("The board does not stop.");
        Require(Ask(MachineCommand.Reset));
        if (!Until(() => Last.State is not (MachineState.Stopped or MachineState.Resetting)) || Last.State != MachineState.Idle)
            throw new InvalidOperationException($"The board does not reference: {Last.State}, {Last.Cause}.");
    }

    /// <summary>Begins a run of an image, fills the queue and starts.</summary>
    public RecordFeed Start(Image image)
    {
        var feed = new RecordFeed(this, image, board.Machine.Grid);
        Require(Ask(new Begin(1, feed.Count)));
        feed.Send();
        Until(() => Link.InFlight == 0);
        Require(Ask(MachineCommand.Start));
        return feed;
    }

    /// <summary>Lets the board run until something holds, or a minute has passed.</summary>
    public bool Until(Func<bool> holds) => Until(holds, Patience);

    public bool Until(Func<bool> holds, TimeSpan within)
    {
        var end = Now + within;
        while (!holds())
        {
            if (Now >= end || Link.State == LinkState.Failed)
                return false;
            GoOn();
        }
        return true;
    }

    public void RunFor(TimeSpan time) => Until(() => false, time);

    /// <summary>Says nothing and takes what comes.</summary>
    public void Listen(TimeSpan time)
    {
        board.Chip.RunFor(time);
        TakeArrived();
    }

    internal bool TrySend(in Records records) => Link.TrySend(records, Now, out _);

    private void GoOn()
    {
        Link.Tick(Now);
        Line.Write(output.WrittenSpan);
        output.ResetWrittenCount();
        Line.WaitAsync(Turn, CancellationToken.None).AsTask().Wait();
        TakeArrived();
    }

    private void TakeArrived()
    {
        for (var count = Line.Read(buffer); count > 0; count = Line.Read(buffer))
            foreach (var octet in buffer.AsSpan(0, count))
                if (decoder.Push(octet) == DecoderEvent.Frame)
                    Take(decoder.Frame);
    }

    private void Take(ReadOnlySpan<byte> frame)
    {
        Link.Receive(frame, Now);
        if (!FrameHeader.TryRead(frame, out var header, out var body) || header.Session != Link.Session
            || header.Type != MessageType.Status || !Status.TryRead(body, out var status))
            return;
        LastNumber = header.Number;
        heard.Add(status);
    }

    private static void Require(Answer answer)
    {
        if (answer != Answer.Accepted)
            throw new InvalidOperationException($"The board refuses: {answer}.");
    }
}
