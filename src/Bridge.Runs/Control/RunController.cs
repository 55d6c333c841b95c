using System.Buffers;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// The host's side of one run, from Hello to the end: joins the procedure, the records, the operator's commands and the journal.
/// Octets and the time go in, octets for the line come out; it waits for nothing by itself. All but <see cref="Request"/> is for one thread.
/// </summary>
public sealed class RunController
{
    // A computer that sleeps or has other work is not at the run for longer than this: what is beyond it no device is blamed for.
    private static readonly TimeSpan LongestTurn = TimeSpan.FromMilliseconds(200);

    private readonly ProvedJob _job;
    private readonly RunSettings _settings;
    private readonly Resumption? _resumed;
    private readonly IRunWatcher _watcher;
    private readonly ArrayBufferWriter<byte> _output = new();
    private readonly FrameDecoder _decoder = new();
    private readonly Requests _requests = new();
    private readonly StatusIntake _intake;
    private readonly DeviceView _device;
    private readonly RunJournal _journal;
    private readonly Dialogue _dialogue;
    private readonly RecordFeed _feed;
    private readonly Steering _steering;
    private readonly HoldWatch _holds;
    private readonly StopBurst _stops;
    private readonly RunProcedure _procedure;
    private readonly Verdict _verdict;
    private ILine? _stopLine;
    private volatile bool _stopIsSaid;
    private TimeSpan _now;
    private TimeSpan _lastTick;
    private bool _hasBegun;
    private TimeSpan _stopBy = TimeSpan.MaxValue;

    /// <summary>A run that has not yet begun, or one that is gone on with; nothing is sent before the first <see cref="Tick"/>.</summary>
    public RunController(ProvedJob job, RunSettings settings, IJournal journal, IRunWatcher watcher, Resumption? resumed = null)
    {
        (_job, _settings, _watcher, _resumed) = (job, settings, watcher, resumed);
        var course = resumed?.Course ?? Course.Whole(job.Job.Image, job.Machine.Grid);
        var until = resumed is { SentBefore: not null } ? resumed.Until : settings.Until; // a device that has the run was told up to where
        var records = course.Records(until ?? job.RecordsToSend);
        _device = new DeviceView(settings.RunId);
        _journal = new RunJournal(journal, resumed?.Entries ?? 0);
        _dialogue = new Dialogue(job.Machine.TimeOuts, settings.Token, _output);
        _feed = new RecordFeed(job.Machine.Width, course, records, _journal, _dialogue, _device);
        _steering = new Steering(_dialogue, _device, _journal, watcher);
        _holds = new HoldWatch(settings, _journal, _device, _steering, watcher);
        _stops = new StopBurst(job.Machine.TimeOuts.Answer);
        _intake = new StatusIntake(job, course, resumed, settings, _device, _journal, _dialogue, _feed, _holds, watcher);
        _procedure = new RunProcedure(job, records, settings, _journal, _dialogue, _device, _feed, _steering, watcher, resumed?.SentBefore);
        _verdict = new Verdict(records, until is null, _device, _procedure, _steering, _stops);
    }

    /// <summary>How the run ended; null while it goes on.</summary>
    public RunEnd? End { get; private set; }

    /// <summary>The cells that the device says it has worked.</summary>
    public WorkedCells Worked => _intake.Worked;

    /// <summary>Where the run stands.</summary>
    public RunProgress Progress => _intake.Progress(_now);

    /// <summary>When the job was first seen to be under way, on the run's clock; null before.</summary>
    public TimeSpan? StartedAt => _intake.StartedAt;

    /// <summary>Frames that were sent more than once.</summary>
    public long Retransmissions => _dialogue.Retransmissions;

    /// <summary>Frames that were sent, those sent again counted again.</summary>
    public long FramesSent => _dialogue.FramesSent;

    /// <summary>The round trips that were measured.</summary>
    public RoundTrips RoundTrips => _dialogue.RoundTrips;

    /// <summary>What came in, frame by frame.</summary>
    public FrameCounters Received => _decoder.Counters;

    /// <summary>When <see cref="Tick"/> next has something to do, on the run's clock.</summary>
    public TimeSpan NextDeadline
    {
        get
        {
            TimeSpan?[] always = [_dialogue.NextDeadline, _journal.NextDeadline, _stopBy, _stops.NextDeadline];
            TimeSpan?[] deadlines = IsEnding ? always : [.. always, _procedure.NextDeadline, _holds.NextDeadline];
            return deadlines.Min() ?? TimeSpan.MaxValue;
        }
    }

    /// <summary>
    /// The line on which STOP leaves at once when Abort is asked for, before the run itself says it again and again; also after the run's end, while the
    /// line is open.
    /// </summary>
    public void StopOn(ILine line) => Volatile.Write(ref _stopLine, line);

    /// <summary>The run's hand on its journal, for what is told after its end.</summary>
    internal RunJournal Journal => _journal;

    private bool IsEnding => _steering.IsStopping || _stops.IsOn;

    /// <summary>Cancelled by the next request; taken before a <see cref="Tick"/>, it tells of each that the tick has not carried out.</summary>
    public CancellationToken NextRequest => _requests.Next;

    /// <summary>
    /// Asks for Hold, Unhold, Stop or Abort, or for Start, which means something only while the start is awaited.
    /// May be called from any thread; carried out at the next <see cref="Tick"/>.
    /// </summary>
    public void Request(MachineCommand command)
    {
        if (command is not (MachineCommand.Hold or MachineCommand.Unhold or MachineCommand.Stop or MachineCommand.Abort or MachineCommand.Start))
            throw new ArgumentOutOfRangeException(nameof(command), command, "A run is asked to start, hold, go on, stop or abort.");
        if (command == MachineCommand.Abort && Volatile.Read(ref _stopLine) is { } line)
        {
            line.Overtake(StopOctets.Burst); // by this thread: the run's own may be writing its journal
            _stopIsSaid = true;
        }

        _requests.Add(command);
    }

    /// <summary>Whether the machine was asked to stand still, and the run ended before it did.</summary>
    public bool IsRestWanted => IsEnding || _steering.HoldIsWanted || _requests.HasRest;

    /// <summary>
    /// Hands over to what moves the machine where this run has ended, such as the run that goes on: what was asked and not carried out, and what is yet
    /// asked.
    /// </summary>
    public void HandOver(Action<MachineCommand> next)
    {
        if (_steering.HoldIsWanted)
            next(MachineCommand.Hold);
        _requests.HandOver(next);
    }

    /// <summary>Hands a line the octets that have come up. STOP goes before all else, also before what still waits in the line.</summary>
    public void WriteTo(ILine line)
    {
        if (End is null)
            _stops.SayTo(line, _now);
        if (_output.WrittenCount > 0 && !StopIsAhead)
            line.Write(_output.WrittenSpan);
        _output.ResetWrittenCount();
        if (StopIsAhead)
            line.Overtake(StopOctets.Burst); // it may have been said in the midst of this
    }

    // STOP has been said for an Abort that the run has not come to yet: whatever was to be sent, such as a Clear, must not come after it.
    private bool StopIsAhead => _stopIsSaid && !_stops.IsOn;

    /// <summary>Takes octets that arrived.</summary>
    public void Receive(ReadOnlySpan<byte> octets, TimeSpan now)
    {
        _now = now;
        foreach (var octet in octets)
            if (_decoder.Push(octet) == DecoderEvent.Frame && End is null && _dialogue.TryHear(_decoder.Frame, now, out var status))
                Hear(status);
    }

    /// <summary>The line is closed, for the given reason.</summary>
    public void LineClosed(string why, TimeSpan now)
    {
        _now = now;
        if (_stops.IsOn)
            Finish(RunEnds.AbortUnconfirmed(why));
        else
            Finish(_device.Last is null ? RunEnds.NoAnswer() : RunEnds.LineLost(why));
    }

    /// <summary>Does what is due by now.</summary>
    public void Tick(TimeSpan now)
    {
        _now = now;
        Begin();
        ExcuseAbsence(now);
        _journal.Tick(now);
        while (End is null && _requests.TryTake(out var command))
            Carry(command);
        _dialogue.Tick(now);
        if (_dialogue.HasFailed)
            LoseLink();
        if (!IsEnding && End is null && (_procedure.Tick(now) ?? _holds.Tick(now)) is { } end)
            StopFor(end);
        var goesOn = !IsEnding && End is null;
        _intake.AwaitOperator(goesOn && _procedure.AwaitsStart, goesOn && _procedure.IsHeldBack, now);
        if (!IsEnding && End is null)
            _feed.Tick(now);
        if (!_stops.IsOn && End is null)
            _steering.Tick(now);
        if (now >= _stopBy && _steering.End is null)
            Abort();
        Judge();
    }

    private void ExcuseAbsence(TimeSpan now)
    {
        var absence = now - _lastTick - LongestTurn;
        _lastTick = now;
        if (absence <= TimeSpan.Zero)
            return;
        _dialogue.Excuse(absence, now);
        _procedure.Excuse(absence);
    }

    private void Begin()
    {
        if (_hasBegun)
            return;
        _hasBegun = true;
        if (_resumed is null)
            _journal.Begin(_now, _job, _settings);
        else
            _journal.GoOn(_now, _resumed, _settings);
    }

    private void Carry(MachineCommand command)
    {
        switch (command)
        {
            case MachineCommand.Abort:
                Abort();
                break;
            case MachineCommand.Stop:
                StopFor(_procedure.IsEngaged ? RunEnds.Stopped(StateCause.Operator) : RunEnds.NotStarted(isResumed: _resumed is not null));
                break;
            case MachineCommand.Start:
                _procedure.Start();
                break;
            case MachineCommand.Unhold when !_journal.IsWritten:
                _watcher.Told($"Not yet: the journal still cannot be written ({_journal.Why}).");
                break;
            case MachineCommand.Unhold when !_procedure.IsOver:
                _steering.TakeBackHold();
                break;
            default:
                _steering.Want(command);
                break;
        }
    }

    private void StopFor(RunEnd end)
    {
        if (IsEnding || End is not null)
            return;
        if (!_procedure.IsEngaged)
        {
            Finish(end);
            return;
        }

        _steering.Stop(end);
        _stopBy = _now + _settings.StopPatience + Stopping.Longest(_job.Machine);
    }

    // In a session of its own, so that nothing of the one before is sent again to a machine that has just been stopped,
    // and what is heard of the machine is newer than the STOP.
    private void Abort()
    {
        if (_stops.IsOn || End is not null)
            return;
        _stopBy = TimeSpan.MaxValue;
        _journal.Command(_now, MachineCommand.Abort);
        _output.ResetWrittenCount();
        _stops.Begin(_now, _stopIsSaid);
        _dialogue.Open(_now);
    }

    private void LoseLink()
    {
        if (_stops.IsOn || _dialogue.Fault == LinkFault.TokenInUse)
            _dialogue.Open(_now);
        else
            Finish(RunEnds.OfLink(_dialogue.Fault, _dialogue.DeviceVersion, wasHeard: _device.Last is not null));
    }

    private void Hear(in Status status)
    {
        if (_stops.IsOn)
            _stops.Hear(status.State, status.Cause); // whatever run it is about: a device that has reset itself knows of none
        if (_intake.Take(status, _now) is { } end)
            StopFor(end);
        Judge();
    }

    private void Judge()
    {
        if (_verdict.At(_now) is { } end)
            Finish(end);
    }

    private void Finish(RunEnd end)
    {
        if (End is not null)
            return;
        _intake.FollowWork();
        _journal.End(_now, _device, end.Outcome, isKnown: end.Outcome != RunOutcome.Aborted || _intake.IsUpToDate);
        if (!_journal.IsWritten)
            end = RunEnds.WithoutJournal(end, _journal.Why);
        var isCertain = _intake.IsUpToDate && end.Outcome != RunOutcome.LineLost;
        var doubt = isCertain ? 0 : _feed.Sent - _device.RecordsDone;
        var known = _resumed?.SentBefore is not null && !_device.HasRun
            ? RunEnds.AsBefore : RunEnds.Known(_intake.Place, _job.RecordsToSend, _feed.Sent, doubt,
                wasCutShort: end.Outcome == RunOutcome.Aborted && StartedAt is not null);
        End = end with { Words = $"{end.Words} {known}" };
    }
}
