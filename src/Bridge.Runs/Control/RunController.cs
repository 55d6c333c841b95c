using System.Buffers;
using System.Collections.Concurrent;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// The host's side of one run, from Hello to the end: connects, tells the device about the machine, references it, streams the records
/// and keeps the journal. Octets and the time go in, octets for the line come out; it waits for nothing by itself.
/// </summary>
public sealed class RunController
{
    private static readonly TimeSpan StopBurstInterval = TimeSpan.FromMilliseconds(20);

    // Places of the link's window that records leave free for commands.
    private const int PlacesForCommands = 2;

    private readonly ProvedJob _job;
    private readonly RunSettings _settings;
    private readonly IRunWatcher _watcher;
    private readonly RunJournal _journal;
    private readonly LinkSettings _linkSettings;
    private readonly LinkSender _link;
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly RecordSource _source;
    private readonly WorkTracker _tracker;
    private readonly ConcurrentQueue<MachineCommand> _requests = new();
    private readonly IEnumerator<Wait> _procedure;

    private TimeSpan _now;
    private Wait? _wait;
    private TimeSpan _waitingSince;
    private Status? _status;
    private byte _asked;                 // the number of the message that was asked last
    private bool _answered = true;
    private Wire.Refusal _answer;
    private bool _engaged;               // the device has left Aborted for this run
    private bool _begun;                 // the device has taken the run
    private bool _streaming;
    private bool _stopping;
    private TimeSpan _stopBy = TimeSpan.MaxValue;
    private bool _aborting;
    private TimeSpan _nextBurst;
    private TimeSpan _heldSince;
    private TimeSpan _progressAt;
    private RunEnd? _endWhenStopped;
    private MachineCommand? _owed;       // a command that the link or the state could not take yet
    private bool _heldForJournal;

    /// <summary>A run that has not yet begun; nothing is sent before the first <see cref="Tick"/>.</summary>
    public RunController(ProvedJob job, RunSettings settings, IJournal journal, IRunWatcher watcher)
    {
        (_job, _settings, _watcher) = (job, settings, watcher);
        _journal = new RunJournal(journal);
        var times = job.Machine.TimeOuts;
        _linkSettings = new LinkSettings
        {
            SilenceLimit = times.Answer,
            BeatInterval = TimeSpan.FromSeconds(Math.Min(0.1, times.LineSilence.TotalSeconds / 4)),
        };
        _link = new LinkSender(_linkSettings, _output);
        _source = new RecordSource(job.Job.Image, job.Machine.Grid);
        _tracker = new WorkTracker(job.Job.Image, job.Machine.Grid);
        _procedure = new Func<IEnumerable<Wait>>[] { Connect, TellMachine, MakeReady, BeginRun, Stream }
            .SelectMany(part => part()).GetEnumerator();
    }

    /// <summary>How the run ended; null while it goes on.</summary>
    public RunEnd? End { get; private set; }

    /// <summary>The cells that the device says it has worked.</summary>
    public WorkedCells Worked => _tracker.Worked;

    /// <summary>Where the run stands.</summary>
    public RunProgress Progress => new(
        _status?.State ?? MachineState.Undefined, _status?.Cause ?? StateCause.None, _begun ? _status?.RecordsDone ?? 0 : 0, _job.RecordsToSend,
        Worked.Counts.A + Worked.Counts.B, _status?.Layer ?? 0, _status?.X ?? 0, _status?.Y ?? 0, _now);

    /// <summary>Frames that were sent more than once.</summary>
    public long Retransmissions => _link.Retransmissions;

    /// <summary>What came in, frame by frame.</summary>
    public FrameCounters Received => _decoder.Counters;

    /// <summary>When <see cref="Tick"/> next has something to do, on the run's clock.</summary>
    public TimeSpan NextDeadline
    {
        get
        {
            var next = Earliest(_link.NextDeadline ?? TimeSpan.MaxValue, _journal.NextDeadline ?? TimeSpan.MaxValue);
            next = Earliest(next, _stopBy);
            if (_aborting)
                next = Earliest(next, _nextBurst);
            if (_wait?.AtMost is { } limit)
                next = Earliest(next, _waitingSince + limit);
            return IsHeld && _settings.HeldPatience is { } patience ? Earliest(next, _heldSince + patience) : next;
        }
    }

    private bool IsHeld => _status?.State == MachineState.Held;

    /// <summary>Asks for Hold, Unhold, Stop or Abort. May be called from any thread; carried out at the next <see cref="Tick"/>.</summary>
    public void Request(MachineCommand command) => _requests.Enqueue(command);

    /// <summary>Takes the octets for the line that have come up.</summary>
    public void TakeOutput(Action<ReadOnlyMemory<byte>> line)
    {
        if (_output.WrittenCount > 0)
            line(_output.WrittenMemory);
        _output.ResetWrittenCount();
    }

    /// <summary>Takes octets that arrived.</summary>
    public void Receive(ReadOnlySpan<byte> octets, TimeSpan now)
    {
        _now = now;
        foreach (var octet in octets)
            if (_decoder.Push(octet) == DecoderEvent.Frame)
                TakeFrame(_decoder.Frame);
    }

    /// <summary>The line is closed, for the given reason.</summary>
    public void LineClosed(string why, TimeSpan now)
    {
        _now = now;
        Finish(_status is null ? RunEnds.NoAnswer() : RunEnds.LineLost(why, Progress.Records));
    }

    /// <summary>Does what is due by now.</summary>
    public void Tick(TimeSpan now)
    {
        _now = now;
        _journal.Tick(now);
        _link.Tick(now);
        if (_link.State == LinkState.Failed)
            Finish(LinkEnd());
        while (End is null && _requests.TryDequeue(out var command))
            Carry(command);
        TellOwed();
        SendBurst();
        WatchJournal();
        WatchHeld();
        if (now >= _stopBy)
            Abort();
        Proceed();
        if (_streaming && !_stopping && !_aborting)
            Feed();
    }

    // ---- the procedure, in order ----

    private IEnumerable<Wait> Connect()
    {
        _journal.Write(_now, JournalKind.Begin, entry => entry with
        {
            Format = FileJournal.Format,
            Run = _settings.RunId,
            Machine = _job.Machine.Name,
            MachineDigest = _job.Machine.Digest.ToString(),
            Device = _settings.Device,
            Records = _job.RecordsToSend,
        });
        yield return new Wait(() => _journal.IsWritten, TimeSpan.FromSeconds(5), () => RunEnds.JournalFailed(_journal.Why));
        _link.Open(_settings.Token, _now);
        yield return new Wait(() => _status is not null, _job.Machine.TimeOuts.Answer, RunEnds.NoAnswer);
        if (_status is { State: not (MachineState.Aborted or MachineState.Stopped or MachineState.Idle or MachineState.Complete) } busy)
            Finish(RunEnds.Busy(busy.State));
    }

    private IEnumerable<Wait> TellMachine()
    {
        if (_status?.State == MachineState.Complete)
            foreach (var wait in Order(MachineCommand.Reset, MachineState.Idle))
                yield return wait;
        foreach (var wait in Ask("the machine", SetupMessages.OfMachine(_job.Machine)))
            yield return wait;
        foreach (var axis in SetupMessages.OfAxes(_job.Machine))
            foreach (var wait in Ask($"axis {"XYZ"[axis.Axis]}", axis))
                yield return wait;
        foreach (var head in SetupMessages.OfHeads(_job.Machine))
            foreach (var wait in Ask($"head {"ab"[head.Head]}", head))
                yield return wait;
    }

    private IEnumerable<Wait> MakeReady()
    {
        if (_status?.State == MachineState.Aborted)
            foreach (var wait in Order(MachineCommand.Clear, MachineState.Stopped))
                yield return wait;
        _engaged = true;

        // What was told about the machine cost it its reference, so even a machine that was Idle looks for its zero again.
        if (_status?.State == MachineState.Idle)
            foreach (var wait in Order(MachineCommand.Stop, MachineState.Stopped))
                yield return wait;
        foreach (var wait in Order(MachineCommand.Reset, MachineState.Idle))
            yield return wait;
    }

    private IEnumerable<Wait> BeginRun()
    {
        foreach (var wait in Ask("the run", new Begin(_settings.RunId, (uint)_job.RecordsToSend)))
            yield return wait;
        _begun = true;

        // The queue is filled before the start, so that the device does not begin by running out of records.
        _streaming = true;
        yield return new Wait(() => _status?.RecordsTaken > 0 && _link.InFlight == 0, _job.Machine.TimeOuts.Answer, RunEnds.NoAnswer);
        _streaming = false;
        foreach (var wait in Ask("to start", new Command(MachineCommand.Start)))
            yield return wait;
    }

    private IEnumerable<Wait> Stream()
    {
        _streaming = true;
        yield return new Wait(() => false);
    }

    private IEnumerable<Wait> Order(MachineCommand command, MachineState goal)
    {
        foreach (var wait in Ask($"the command {command}", new Command(command)))
            yield return wait;
        var limit = _job.Machine.TimeOuts.Reference * 3 + _job.Machine.TimeOuts.Answer;
        yield return new Wait(() => _status?.State == goal, limit, () => RunEnds.TookTooLong($"come to {goal}", limit));
    }

    private IEnumerable<Wait> Ask<T>(string what, T message)
        where T : struct, IMessage
    {
        yield return new Wait(() => _answered && _link.CanSend);
        Send(message);
        yield return new Wait(() => _answered, _job.Machine.TimeOuts.Answer, RunEnds.NoAnswer);
        if (_answer != Wire.Refusal.None)
            Finish(RunEnds.Refused(what, _answer));
    }

    private void Proceed()
    {
        while (End is null && !_stopping && !_aborting && (_wait is null || _wait.Until()))
        {
            if (!_procedure.MoveNext())
                return;
            _wait = _procedure.Current;
            _waitingSince = _now;
        }

        if (End is null && _wait is { AtMost: { } limit, OrElse: { } orElse } && _now - _waitingSince >= limit)
            Finish(orElse());
    }

    // ---- what the device says ----

    private void TakeFrame(ReadOnlySpan<byte> frame)
    {
        if (!_link.Receive(frame, _now) || !FrameHeader.TryRead(frame, out var header, out var body))
            return;
        if (header.Type != MessageType.Status || !Status.TryRead(body, out var status))
            return;
        var before = _status;
        _status = status;
        TakeAnswer(status);
        if (_begun && status.RunId == _settings.RunId)
            _tracker.AdvanceTo(status.RecordsDone, status.CellsDone);
        if (before is null || before.Value.State != status.State || before.Value.Cause != status.Cause)
            TakeState(status);
        else if (before.Value.RecordsDone != status.RecordsDone || before.Value.CellsDone != status.CellsDone)
            TakeProgress(status);
    }

    private void TakeAnswer(Status status)
    {
        if (!_answered && status.AnswerNumber == _asked && _link.IsAcknowledged(_asked))
        {
            (_answered, _answer) = (true, status.Answer);
            if (_streaming && _answer != Wire.Refusal.None)
                _watcher.Told($"The device refused the command: {StateWords.Of(_answer)}.");
        }
        else if (_answered && _streaming && status.AnswerNumber != _asked && status.Answer is not (Wire.Refusal.None or Wire.Refusal.WrongState))
        {
            StopFor(RunEnds.RecordsRefused(status.Answer));
        }
    }

    private void TakeState(Status status)
    {
        _journal.Write(_now, JournalKind.State, entry => entry with
        {
            State = status.State.ToString(),
            Cause = status.Cause == StateCause.None ? null : status.Cause.ToString(),
            Records = _begun ? status.RecordsDone : null,
            Cells = _begun ? status.CellsDone : null,
            Position = PositionOf(status),
        });
        _watcher.StateChanged(Progress);
        switch (status.State)
        {
            case MachineState.Held:
                _heldSince = _now;
                GoOnWhereAllowed(status.Cause);
                break;
            case MachineState.Complete when _begun:
                Finish(RunEnds.Complete());
                break;
            case MachineState.Stopped when _begun || _stopping:
                Finish(_endWhenStopped ?? RunEnds.Stopped(status.Cause));
                break;
            case MachineState.Aborted when _engaged || _aborting:
                Finish(RunEnds.Aborted(status.Cause));
                break;
        }
    }

    private void TakeProgress(Status status)
    {
        _watcher.Progressed(Progress);
        if (!_begun || _now < _progressAt)
            return;
        _progressAt = _now + _settings.ProgressInterval;
        _journal.Write(_now, JournalKind.Done, entry => entry with
        {
            Records = status.RecordsDone,
            Cells = status.CellsDone,
            Position = PositionOf(status),
        });
    }

    private static string PositionOf(Status status) => $"{status.X} {status.Y} {status.Layer} {"ab"[status.Head]}";

    // ---- streaming ----

    // The journal says that records are sent before they are, so what was sent is known whatever happens next.
    private void Feed()
    {
        Span<byte> buffer = stackalloc byte[Wire.Records.MaxOctets];
        while (End is null && _status is { } status && _journal.IsWritten
            && _link.CanSend && _link.InFlight < _linkSettings.Window - PlacesForCommands)
        {
            var first = _source.Taken;
            var count = _source.Take(buffer, status.RecordsLimit - (long)first);
            if (count == 0)
                return;
            _journal.Write(_now, JournalKind.Sent, entry => entry with { Records = _source.Taken });
            _link.TrySend(new Wire.Records(first, buffer[..(count * _job.Machine.Width.Bytes)]), _now, out _);
        }
    }

    private void WatchJournal()
    {
        if (!_heldForJournal && !_journal.IsWritten && _begun)
        {
            _heldForJournal = true;
            _watcher.Told($"The journal cannot be written ({_journal.Why}): the machine is held. Make room on the disk and go on, or stop the run.");
            Tell(MachineCommand.Hold);
        }
        else if (_heldForJournal && _journal.IsWritten)
        {
            _heldForJournal = false;
            _watcher.Told("The journal can be written again. The machine stays held until it is told to go on.");
        }
    }

    private void WatchHeld()
    {
        if (IsHeld && _settings.HeldPatience is { } patience && _now - _heldSince >= patience)
            StopFor(RunEnds.HeldTooLong(_status!.Value.Cause));
    }

    private void GoOnWhereAllowed(StateCause cause)
    {
        if (cause == StateCause.OperatorWait && _settings.GoesOnAtWaits)
            Request(MachineCommand.Unhold);
        else if (cause == StateCause.OperatorWait)
            _watcher.Told("The job waits for you: do what it waits for, then go on.");
        else if (cause != StateCause.Operator)
            _watcher.Told($"The machine holds: {StateWords.Of(cause)}. {StateWords.WhatToDo(cause)}");
    }

    // ---- commands ----

    private void Carry(MachineCommand command)
    {
        switch (command)
        {
            case MachineCommand.Abort:
                Abort();
                break;
            case MachineCommand.Stop:
                StopFor(RunEnds.Stopped(StateCause.Operator));
                break;
            case MachineCommand.Unhold when !_journal.IsWritten:
                _watcher.Told($"Not yet: the journal still cannot be written ({_journal.Why}).");
                break;
            case MachineCommand.Hold or MachineCommand.Unhold:
                Tell(command);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(command), command, "A run is asked to hold, go on, stop or abort.");
        }
    }

    private void StopFor(RunEnd end)
    {
        if (_stopping || _aborting)
            return;
        if (!_engaged || _status is { State: MachineState.Stopped or MachineState.Aborted })
        {
            Finish(end);
            return;
        }

        _endWhenStopped = _journal.IsWritten ? end : RunEnds.JournalFailed(_journal.Why);
        _stopping = true;
        _stopBy = _now + _settings.StopPatience;
        Tell(MachineCommand.Stop);
    }

    private void Abort()
    {
        if (_aborting)
            return;
        if (!_engaged || _status is { State: MachineState.Aborted })
        {
            Finish(RunEnds.Aborted(StateCause.StopOctets));
            return;
        }

        _aborting = true;
        _nextBurst = _now;
        _stopBy = TimeSpan.MaxValue;
        _journal.Write(_now, JournalKind.Command, entry => entry with { Command = nameof(MachineCommand.Abort) });
        SendBurst();
    }

    // STOP passes every queue, so it is sent until the device says that it aborts, or the line is given up.
    private void SendBurst()
    {
        if (!_aborting || End is not null || _now < _nextBurst)
            return;
        if (_status is { State: MachineState.Aborting or MachineState.Aborted })
            return;
        StopOctets.Burst.CopyTo(_output.GetSpan(StopOctets.Burst.Length));
        _output.Advance(StopOctets.Burst.Length);
        _nextBurst = _now + StopBurstInterval;
    }

    private void Tell(MachineCommand command)
    {
        _journal.Write(_now, JournalKind.Command, entry => entry with { Command = command.ToString() });
        _owed = command;
        TellOwed();
    }

    // A command waits while the link is full or the state is one that passes; in a state that stays and refuses it, it means nothing.
    private void TellOwed()
    {
        if (_owed is not { } command || _status is not { } status || !_link.CanSend)
            return;
        if (StateTable.Next(status.State, command) is null)
        {
            if (!StateTable.IsActing(status.State))
                _owed = null;
            return;
        }

        _owed = null;
        Send(new Command(command));
    }

    private void Send<T>(T message)
        where T : struct, IMessage
    {
        if (_link.TrySend(message, _now, out _asked))
            _answered = false;
    }

    private RunEnd LinkEnd() => _link.Fault switch
    {
        LinkFault.WrongVersion => RunEnds.WrongVersion(_link.BoardVersion),
        LinkFault.BadWelcome => RunEnds.NoAnswer(),
        _ when _status is null => RunEnds.NoAnswer(),
        _ => RunEnds.LineLost("the device no longer answers", Progress.Records),
    };

    private void Finish(RunEnd end)
    {
        if (End is not null)
            return;
        End = end;
        _journal.Write(_now, JournalKind.End, entry => entry with
        {
            Outcome = end.Outcome.ToString(),
            Records = _begun ? _status?.RecordsDone : null,
            Cells = _begun ? _status?.CellsDone : null,
        });
        if (end.Outcome == RunOutcome.Complete && !_journal.IsWritten)
            End = RunEnds.CompleteWithoutJournal(_journal.Why);
    }

    private static TimeSpan Earliest(TimeSpan left, TimeSpan right) => left < right ? left : right;
}
