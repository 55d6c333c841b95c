using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// What a run does while nothing comes between: connects, tells the device about the machine, references it, begins the run, fills its queue
/// and starts it. Between two steps it waits while a Hold is wanted or the journal is not written.
/// </summary>
internal sealed class RunProcedure
{
    private static readonly TimeSpan JournalPatience = TimeSpan.FromSeconds(5);

    private readonly ProvedJob _job;
    private readonly long _records;
    private readonly long? _sentBefore;
    private readonly RunSettings _settings;
    private readonly RunJournal _journal;
    private readonly Dialogue _dialogue;
    private readonly DeviceView _device;
    private readonly RecordFeed _feed;
    private readonly Steering _steering;
    private readonly IRunWatcher _watcher;
    private readonly IEnumerator<Wait> _waits;
    private bool _awaitsStart;
    private TimeSpan _now;
    private TimeSpan _waitingSince;

    // records: those that the device is to execute. sentBefore: where it has the run already, the most of them that it may have taken.
    public RunProcedure(ProvedJob job, long records, RunSettings settings, RunJournal journal, Dialogue dialogue, DeviceView device,
        RecordFeed feed, Steering steering, IRunWatcher watcher, long? sentBefore)
    {
        (_job, _records, _settings, _journal, _dialogue, _device, _feed, _steering, _watcher, _sentBefore) =
            (job, records, settings, journal, dialogue, device, feed, steering, watcher, sentBefore);
        HasLeftAborted = settings.LayerBegun is not null;
        _waits = (sentBefore is null ? Steps() : StepsOnward()).SelectMany(step => step).GetEnumerator();
    }

    /// <summary>Whether something was asked that may move the machine or switch its drivers on.</summary>
    public bool IsEngaged { get; private set; }

    /// <summary>
    /// Whether the machine was found out of Aborted, or has left it for this run or for the layer before. From there on, Aborted ends the run: whatever
    /// stopped the machine, a person looks at it first.
    /// </summary>
    public bool HasLeftAborted { get; private set; }

    /// <summary>Whether the machine has been set going: before, nobody but this sets it going.</summary>
    public bool IsOver { get; private set; }

    /// <summary>Whether all is ready and the run waits to be asked to start.</summary>
    public bool AwaitsStart => _awaitsStart && !_steering.HoldIsWanted;

    /// <summary>Whether a machine at rest is not set going because a Hold is wanted.</summary>
    public bool IsHeldBack => !IsOver && _steering.HoldIsWanted
        && _device.State is MachineState.Aborted or MachineState.Stopped or MachineState.Idle or MachineState.Complete or MachineState.Held;

    /// <summary>When the present wait has lasted too long.</summary>
    public TimeSpan NextDeadline => _waits.Current?.AtMost is { } limit ? _waitingSince + limit : TimeSpan.MaxValue;

    private TimeOuts Times => _job.Machine.TimeOuts;

    /// <summary>Goes on as far as it can. Gives the run's end if it cannot go on at all, else null.</summary>
    public RunEnd? Tick(TimeSpan now)
    {
        _now = now;
        while (_waits.Current is not { } wait || wait.Until())
        {
            _waits.MoveNext();
            _waitingSince = now;
        }

        return now >= NextDeadline ? _waits.Current.OrElse!() : null;
    }

    /// <summary>Starts, if the start is awaited; one asked for earlier would start a machine that nobody has seen ready.</summary>
    public void Start() => _awaitsStart &= !AwaitsStart;

    /// <summary>Takes note that the run stood still for a while, ending now: what is waited for may take so much longer.</summary>
    public void Excuse(TimeSpan absence) => _waitingSince += absence;

    private IEnumerable<IEnumerable<Wait>> Steps()
    {
        yield return WriteJournal();
        yield return Connect();
        yield return TakeOver();
        yield return TellMachine();
        IsEngaged = true;
        if (_device.State == MachineState.Aborted)
            yield return Order(MachineCommand.Clear, MachineState.Stopped);
        HasLeftAborted = true;
        var resetAt = _now;
        yield return Order(MachineCommand.Reset, MachineState.Idle);
        if (_settings.LayerBegun is { } layer)
            yield return TellLostSteps(layer, _now - resetAt);
        yield return Ask("the run", new Begin(_settings.RunId, (uint)_records));
        _device.HasRun = true;
        yield return FillQueue();
        if (_settings.AwaitsStart)
            yield return AwaitStart();
        yield return Tell(MachineCommand.Start);
        yield return Over();
    }

    private IEnumerable<IEnumerable<Wait>> StepsOnward()
    {
        yield return WriteJournal();
        yield return Connect();
        if (!HoldsRun())
            yield return [GiveUp(RunEnds.NoLongerHeld(_device.State))];
        (IsEngaged, HasLeftAborted) = (true, true);
        _feed.Skip(_device.Last!.Value.RecordsTaken);
        _device.HasRun = true;
        yield return FillQueue();
        if (_device.Cause != StateCause.OperatorWait)
        {
            if (_settings.AwaitsStart)
                yield return AwaitStart();
            yield return Tell(MachineCommand.Unhold);
        }

        yield return Over();
    }

    private bool HoldsRun() => _device.Last is { } last && last.RunId == _settings.RunId && last.RecordsTaken <= _sentBefore
        && last.State is MachineState.Held or MachineState.Complete;

    private IEnumerable<Wait> WriteJournal()
    {
        yield return new Wait(() => _journal.IsWritten, JournalPatience, () => RunEnds.JournalFailed(_journal.Why));
    }

    private IEnumerable<Wait> Connect()
    {
        _dialogue.Open(_now);
        yield return new Wait(() => _device.Last is not null, Times.Answer, RunEnds.NoAnswer);
        if (_dialogue.Welcome is { } welcome)
            _journal.Device(_now, welcome);
        yield return new Wait(() => !StateTable.IsActing(_device.State), Times.Answer, () => RunEnds.Busy(_device.State));
        HasLeftAborted |= _device.State != MachineState.Aborted;
    }

    // What is told about the machine costs it its reference, so even one that is Idle begins from Stopped.
    private IEnumerable<Wait> TakeOver() => _device.State switch
    {
        MachineState.Stopped or MachineState.Aborted => [],
        MachineState.Idle or MachineState.Complete => Order(MachineCommand.Stop, MachineState.Stopped),
        MachineState.Held or MachineState.Suspended when _settings.EndsHeldRun => Order(MachineCommand.Stop, MachineState.Stopped),
        var busy => [GiveUp(RunEnds.Busy(busy))],
    };

    private IEnumerable<Wait> TellMachine()
    {
        var machine = _job.Machine;
        return Ask("the machine's setup", SetupMessages.OfMachine(machine))
            .Concat(SetupMessages.OfAxes(machine).SelectMany(axis => Ask($"the setup of axis {"XYZ"[axis.Axis]}", axis)))
            .Concat(SetupMessages.OfHeads(machine).SelectMany(head => Ask($"the setup of head {"ab"[head.Head]}", head)));
    }

    // Before the start, so that the device does not begin by running out of records.
    private IEnumerable<Wait> FillQueue()
    {
        yield return Ready();
        yield return new Wait(() => !_journal.IsWritten || (_feed.Sent > 0 && _dialogue.IsAllHeard && _device.RecordsTaken == _feed.Sent),
            Times.Answer, () => RunEnds.NoAnswerTo("the first records"));
    }

    private IEnumerable<Wait> AwaitStart()
    {
        _awaitsStart = true;
        yield return new Wait(() => !_awaitsStart, _settings.HeldPatience, () => RunEnds.HeldTooLong(_device.Cause));
    }

    private IEnumerable<Wait> Over()
    {
        IsOver = true;
        yield return new Wait(() => false);
    }

    private IEnumerable<Wait> Order(MachineCommand command, MachineState goal)
    {
        var limit = Times.Reference * 3 + Times.Answer;
        foreach (var wait in Tell(command))
            yield return wait;
        yield return new Wait(() => !StateTable.IsActing(_device.State), limit, () => RunEnds.TookTooLong(goal, limit));
        if (_device.State != goal)
            yield return GiveUp(_device.State == MachineState.Aborted ? RunEnds.Aborted(_device.Cause) : RunEnds.Stopped(_device.Cause));
    }

    private IEnumerable<Wait> TellLostSteps(int layer, TimeSpan took)
    {
        const int MostTries = 5; // a references that is lost on the way is asked for again
        for (var tries = 0; tries < MostTries && _dialogue.References is null; tries++)
            foreach (var wait in Ask("what its references found", new ReferenceRead()))
                yield return wait;
        if (_dialogue.References is not { } found)
        {
            _watcher.Told($"Before layer {layer}: the device does not tell what its references found.");
            yield break;
        }

        IReadOnlyList<LostSteps> lost = [.. LostSteps.Of(_job.Machine, found)];
        _journal.Referenced(_now, lost, took, layer);
        _watcher.Told($"Before layer {layer}: lost steps: {LostStepsWords.Of(lost)}.");
    }

    private IEnumerable<Wait> Tell(MachineCommand command)
    {
        yield return Ready();
        _journal.Command(_now, command);
        foreach (var wait in Ask($"the command {command}", new Command(command)))
            yield return wait;
    }

    private IEnumerable<Wait> Ask<T>(string what, T message)
        where T : struct, IMessage
    {
        yield return Ready();
        _dialogue.Ask(message, _now);
        yield return new Wait(() => _dialogue.IsAnswered, Times.Answer, () => RunEnds.NoAnswerTo(what));
        if (_dialogue.Answer != Answer.Accepted)
            yield return GiveUp(RunEnds.Refused(what, _dialogue.Answer));
    }

    private Wait Ready() => new(
        () => _journal.IsWritten && !_steering.HoldIsWanted && _dialogue.IsAnswered && _dialogue.CanAsk,
        _settings.HeldPatience, () => RunEnds.HeldTooLong(_device.Cause));

    private static Wait GiveUp(RunEnd end) => new(() => false, TimeSpan.Zero, () => end);
}
