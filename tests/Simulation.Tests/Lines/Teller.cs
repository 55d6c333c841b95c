using System.Buffers;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>A host that tells the board one thing at a time and waits for the answer.</summary>
internal sealed class Teller
{
    private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(5);

    private readonly ILine _line;
    private readonly Func<TimeSpan> _now;
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly byte[] _octets = new byte[4096];
    private readonly LinkSender _link;

    /// <summary>Opens a session over a line whose waits let time pass.</summary>
    public Teller(ILine line, Func<TimeSpan> now, ushort token)
    {
        (_line, _now) = (line, now);
        _link = new LinkSender(new LinkSettings { SilenceLimit = TimeSpan.FromSeconds(1) }, _output);
        _link.Open(token, now());
    }

    /// <summary>The last Status; null before the first.</summary>
    public Status? Status { get; private set; }

    /// <summary>The first Status that tells of a board that is not about to be in another state; null where the link is lost before.</summary>
    public Status? WaitForRest() => Wait(() => Status is { } status && !StateTable.IsActing(status.State)) ? Status : null;

    /// <summary>Tells it a message; null where the link is lost before the answer.</summary>
    public Answer? Ask<T>(in T message)
        where T : struct, IMessage, allows ref struct
    {
        byte number = 0;
        if (!Wait(() => _link.CanSend) || !_link.TrySend(message, _now(), out number))
            return null;
        Status = null;
        return Wait(() => _link.IsAcknowledged(number) && Status?.AnswerNumber == number) ? Status!.Value.Answer : null;
    }

    /// <summary>The same, again and again while its store is busy.</summary>
    public Answer? AskPatiently<T>(in T message)
        where T : struct, IMessage, allows ref struct
    {
        Answer? answer;
        while ((answer = Ask(message)) == Answer.StoreBusy)
            Wait(() => true);
        return answer;
    }

    private bool Wait(Func<bool> until)
    {
        do
        {
            for (int count; (count = _line.Read(_octets)) > 0;)
                Hear(_octets.AsSpan(0, count));
            _link.Tick(_now());
            _line.Write(_output.WrittenSpan);
            _output.ResetWrittenCount();
            if (!_line.IsOpen || _link.State == LinkState.Failed)
                return false;
            if (until())
                return true;
            _line.WaitAsync(Turn, CancellationToken.None).AsTask().Wait();
        }
        while (true);
    }

    private void Hear(ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            if (_decoder.Push(octet) == DecoderEvent.Frame && _link.Receive(_decoder.Frame, _now())
                && FrameHeader.TryRead(_decoder.Frame, out var header, out var body) && header.Type == MessageType.Status
                && Bridge.Wire.Status.TryRead(body, out var status))
                Status = status;
    }
}
