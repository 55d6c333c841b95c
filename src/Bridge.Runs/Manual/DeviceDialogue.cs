using System.Buffers;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>A session with a device in which one thing is told at a time and its answer waited for.</summary>
public sealed class DeviceDialogue
{
    private static readonly TimeSpan LongestWait = TimeSpan.FromMilliseconds(20);

    // A program that waits for something else, or a computer that slept, is not at the dialogue for longer than this: its device is not blamed for it.
    private static readonly TimeSpan LongestTurn = TimeSpan.FromMilliseconds(200);

    private static readonly TimeSpan StopPatience = TimeSpan.FromSeconds(1);

    private readonly ILine _line;
    private readonly TimeProvider _time;
    private readonly long _start;
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly LinkSender _link;
    private readonly byte[] _buffer = new byte[1024];
    private readonly StopBurst _stop = new(StopPatience);
    private volatile bool _haltIsWanted;
    private TimeSpan _lastTurn;
    private byte _asked;
    private ushort _askedIn; // the session
    private bool _isAnswered;
    private Answer _answer;

    /// <param name="line">An open line to the device.</param>
    /// <param name="time">The line's own clock, real or virtual.</param>
    public DeviceDialogue(ILine line, TimeProvider time)
    {
        (_line, _time, _start) = (line, time, time.GetTimestamp());
        _link = new LinkSender(new LinkSettings(), _output);
    }

    /// <summary>Octets of the store that came last, from an offset of an image of a length.</summary>
    public (int ImageLength, int Offset, byte[] Octets)? Stored { get; private set; }

    /// <summary>What the device told of its references after it was last asked; null before.</summary>
    public References? References { get; private set; }

    /// <summary>What the device last said of itself in this session; null before.</summary>
    public Status? Status { get; private set; }

    /// <summary>Why nothing more can be told; null while all is well.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Time since the dialogue was made.</summary>
    public TimeSpan Now => _time.GetElapsedTime(_start);

    private bool IsHaltOver => _stop.IsDone || _stop.IsOverdue(Now);

    private bool IsAtRest => Status is { } last && !StateTable.IsActing(last.State);

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
        (_isAnswered, Stored, References) = (false, null, null);
        _link.TrySend(message, Now, out _asked);
        _askedIn = _link.Token;
        return AnswerAsync();
    }

    /// <summary>Sends records of the run that has begun; the device's count of those that it has taken is the answer.</summary>
    public void SendRecords(uint first, ReadOnlySpan<byte> octets) => _link.TrySend(new Records(first, octets), Now, out _);

    /// <summary>Gives leave to move one axis for a moment.</summary>
    public void Jog(Jog leave) => _link.Say(leave, Now);

    /// <summary>Waits until something holds; false, which is no trouble, where it does not in time.</summary>
    public async Task<bool> WaitAsync(Func<bool> holds, TimeSpan atMost)
    {
        var until = Now + atMost;
        await UntilAsync(() => holds() || Now >= until).ConfigureAwait(false);
        return Trouble is null && holds();
    }

    /// <summary>Asks for STOP, said until the device has switched its drivers off. May be called from any thread while something is waited for.</summary>
    public void Halt() => _haltIsWanted = true;

    /// <summary>Says STOP and waits; false where the device does not say in time that its drivers are off.</summary>
    public async Task<bool> HaltAsync()
    {
        Halt();
        if (Trouble is not null)
            _line.Overtake(StopOctets.Burst); // a device that is not heard may hear
        await UntilAsync(() => IsHaltOver).ConfigureAwait(false);
        return _stop.IsDone;
    }

    /// <summary>Lets time pass.</summary>
    public Task PassAsync(TimeSpan time)
    {
        var until = Now + time;
        return UntilAsync(() => Now >= until);
    }

    private async Task<Answer?> AnswerAsync()
    {
        await UntilAsync(() => _isAnswered || IsHaltOver).ConfigureAwait(false);
        if (!_isAnswered)
            Trouble ??= "It was told to stop at once.";
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
        if (now - _lastTurn > LongestTurn)
            _link.Excuse(now - _lastTurn - LongestTurn, now);
        _lastTurn = now;
        _link.Tick(now);
        if (_haltIsWanted)
            SayStop(now);
        _line.Write(_output.WrittenSpan);
        _output.ResetWrittenCount();
        if (_link.State == LinkState.Failed)
            Trouble = Words(_link.Fault);
        else if (!_line.IsOpen)
            Trouble = $"The line was lost: {_line.ClosedBecause}.";
    }

    private void SayStop(TimeSpan now)
    {
        if (!_stop.IsOn)
        {
            _stop.Begin(now);
            _output.ResetWrittenCount();
            _link.Open(SessionToken.After(_link.Token), now); // nothing from before is sent again to a machine that has just been stopped
        }

        _stop.SayTo(_line, now);
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
        if (type == (byte)MessageType.References && Wire.References.TryRead(body, out var references))
            References = references;
        if (type != (byte)MessageType.Status || !Wire.Status.TryRead(body, out var status))
            return;
        Status = status;
        _stop.Hear(status.State, status.Cause);
        if (_askedIn == _link.Token && status.AnswerNumber == _asked && _link.IsAcknowledged(_asked))
            (_isAnswered, _answer) = (true, status.Answer);
    }

    private string Words(LinkFault fault) => fault switch
    {
        LinkFault.WrongVersion => $"The device speaks version {_link.BoardVersion} of the wire, this program version {Hello.CurrentVersion}. "
            + "Bring both to the same version.",
        LinkFault.BadWelcome => "What answered does not say sensibly what it is. Check the port's name: is it another device? Check the firmware.",
        _ => _link.Welcome is null
            ? "The device never answered. Check that it has power, the cable, the port's name and the baud rate in the machine file."
            : "The device no longer answers. By itself it stops after its line time-out; if it moves, press the e-stop. Check the cable.",
    };
}
