using System.Buffers;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>A session with a device in which one thing is told at a time and its answer waited for.</summary>
internal sealed class DeviceDialogue
{
    private static readonly TimeSpan LongestWait = TimeSpan.FromMilliseconds(20);

    private readonly ILine _line;
    private readonly TimeProvider _time;
    private readonly long _start;
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly LinkSender _link;
    private readonly byte[] _buffer = new byte[1024];
    private byte _asked;
    private bool _isAnswered;
    private Answer _answer;

    public DeviceDialogue(ILine line, TimeProvider time)
    {
        (_line, _time, _start) = (line, time, time.GetTimestamp());
        _link = new LinkSender(new LinkSettings(), _output);
    }

    /// <summary>Octets of the store that came last, from an offset of an image of a length.</summary>
    public (int ImageLength, int Offset, byte[] Octets)? Stored { get; private set; }

    /// <summary>What the device last said of itself in this session; null before.</summary>
    public Status? Status { get; private set; }

    /// <summary>Why nothing more can be told; null while all is well.</summary>
    public string? Trouble { get; private set; }

    private bool IsAtRest => Status is { } last && !StateTable.IsActing(last.State);

    private TimeSpan Now => _time.GetElapsedTime(_start);

    /// <summary>Opens a session; null, and trouble, where it does not come to one.</summary>
    public async Task<Welcome?> OpenAsync(ushort token)
    {
        _link.Open(token, Now);
        await UntilAsync(() => _link.State != LinkState.Opening).ConfigureAwait(false);
        return Trouble is null ? _link.Welcome : null;
    }

    /// <summary>What the device says of itself once it is in no state that passes; null, and trouble, where it does not come to that in time.</summary>
    public async Task<Status?> RestAsync(TimeSpan atMost)
    {
        var until = Now + atMost;
        await UntilAsync(() => IsAtRest || Now >= until).ConfigureAwait(false);
        if (!IsAtRest)
            Trouble ??= Status is { } last ? $"The device stays {last.State} ({StateWords.Of(last.State)})." : "The device does not say what it does.";
        return Trouble is null ? Status : null;
    }

    /// <summary>Tells something and gives the answer; null, and trouble, where there is none.</summary>
    public Task<Answer?> TellAsync<T>(in T message)
        where T : struct, IMessage, allows ref struct
    {
        (_isAnswered, Stored) = (false, null);
        _link.TrySend(message, Now, out _asked);
        return AnswerAsync();
    }

    /// <summary>Lets time pass.</summary>
    public Task PassAsync(TimeSpan time)
    {
        var until = Now + time;
        return UntilAsync(() => Now >= until);
    }

    private async Task<Answer?> AnswerAsync()
    {
        await UntilAsync(() => _isAnswered).ConfigureAwait(false);
        return _isAnswered ? _answer : null;
    }

    // Hears and says what is due until something holds, or there is trouble.
    private async Task UntilAsync(Func<bool> holds)
    {
        while (Trouble is null)
        {
            Turn();
            if (Trouble is not null || holds())
                return;
            var due = (_link.NextDeadline ?? TimeSpan.MaxValue) - Now;
            await _line.WaitAsync(TimeSpan.FromTicks(Math.Clamp(due.Ticks, 0, LongestWait.Ticks)), CancellationToken.None).ConfigureAwait(false);
        }
    }

    private void Turn()
    {
        var now = Now; // before the line is read, so that a device that was not listened to is not found silent
        for (int count; (count = _line.Read(_buffer)) > 0;)
            Hear(_buffer.AsSpan(0, count));
        _link.Tick(now);
        _line.Write(_output.WrittenSpan);
        _output.ResetWrittenCount();
        if (_link.State == LinkState.Failed)
            Trouble = Words(_link.Fault);
        else if (!_line.IsOpen)
            Trouble = $"The line was lost: {_line.ClosedBecause}.";
    }

    private void Hear(ReadOnlySpan<byte> octets)
    {
        foreach (var octet in octets)
            if (_decoder.Push(octet) == DecoderEvent.Frame && _link.Receive(_decoder.Frame, Now))
                Hear(_decoder.Frame[0], _decoder.Frame[FrameFormat.HeaderLength..]);
    }

    private void Hear(byte type, ReadOnlySpan<byte> body)
    {
        if (type == (byte)MessageType.Stored && Wire.Stored.TryRead(body, out var stored))
            Stored = (stored.ImageLength, stored.Offset, stored.Octets.ToArray());
        if (type != (byte)MessageType.Status || !Wire.Status.TryRead(body, out var status))
            return;
        Status = status;
        if (status.AnswerNumber == _asked && _link.IsAcknowledged(_asked))
            (_isAnswered, _answer) = (true, status.Answer);
    }

    private string Words(LinkFault fault) => fault switch
    {
        LinkFault.WrongVersion => $"The device speaks version {_link.BoardVersion} of the wire, this program version {Hello.CurrentVersion}.",
        LinkFault.BadWelcome => "What answered does not say sensibly what it is.",
        _ => _link.Welcome is null ? "The device never answered." : "The device no longer answers.",
    };
}
