using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Takes what the device says of itself: holds it against what was sent, follows the work, and tells the journal and the watcher.</summary>
internal sealed class StatusIntake(
    ProvedJob job, Course course, Resumption? resumed, RunSettings settings, DeviceView device,
    RunJournal journal, Dialogue dialogue, RecordFeed feed, HoldWatch holds, IRunWatcher watcher)
{
    private readonly WorkTracker _tracker = new(course, resumed?.Worked);
    private TimeSpan _progressAt;

    /// <summary>When the job was first seen to be under way; null before.</summary>
    public TimeSpan? StartedAt { get; private set; }

    /// <summary>The cells that the device says it has worked; before it says anything of a run that it has still, those known of.</summary>
    public WorkedCells Worked => KnownBefore?.Worked ?? _tracker.Worked;

    /// <summary>Whether all is ready and the run waits to be asked to start.</summary>
    public bool AwaitsStart { get; private set; }

    /// <summary>Whether the machine, not yet set going, waits until a Hold is taken back.</summary>
    public bool IsHeldBack { get; private set; }

    /// <summary>Whether the last Status was believed and about this run.</summary>
    public bool IsUpToDate { get; private set; } = true;

    /// <summary>The place that the job has reached, as the device says.</summary>
    public JobPlace Place => KnownBefore?.Place ?? course.PlaceOf(device.RecordsDone, device.CellsDone);

    /// <summary>Where the run stands.</summary>
    public RunProgress Progress(TimeSpan now) => new(
        device.State, device.Cause, Place.Records, job.RecordsToSend, Worked.Counts.A + Worked.Counts.B,
        device.Last?.Layer ?? 0, device.Last?.X ?? 0, device.Last?.Y ?? 0, now) { AwaitsStart = AwaitsStart, IsHeldBack = IsHeldBack };

    /// <summary>The run begins, or ends, to wait for its start, or for a Hold to be taken back before it.</summary>
    public void AwaitOperator(bool awaitsStart, bool isHeldBack, TimeSpan now)
    {
        if ((AwaitsStart, IsHeldBack) == (awaitsStart, isHeldBack))
            return;
        (AwaitsStart, IsHeldBack) = (awaitsStart, isHeldBack);
        watcher.StateChanged(Progress(now));
    }

    /// <summary>Takes a Status. Gives the end to stop for if the device's counts of records cannot be, else null.</summary>
    public RunEnd? Take(in Status status, TimeSpan now)
    {
        var (state, cause, records, cells) = (device.State, device.Cause, device.RecordsDone, device.CellsDone);
        IsUpToDate = !CountsTooMany(status) && device.Take(status);
        if (!IsUpToDate)
            return CountsTooMany(status) ? RunEnds.RecordsRefused(Answer.IndexMismatch) : null;
        FollowWork();
        if (state != status.State || cause != status.Cause)
            TakeState(now);
        else if ((records, cells) != (device.RecordsDone, device.CellsDone))
            TakeProgress(now);

        // It has heard all that was sent, so it must have taken it.
        var lacksRecords = device.TakesRecords && dialogue.IsAllHeard && device.RecordsTaken < feed.Sent;
        return lacksRecords ? RunEnds.RecordsRefused(status.Answer) : null;
    }

    /// <summary>Counts what the device says is worked.</summary>
    public void FollowWork() => _tracker.AdvanceTo(device.RecordsDone, device.CellsDone);

    private (JobPlace Place, WorkedCells Worked)? KnownBefore => device.HasRun ? null : resumed?.Known;

    // A device that counts records which were never sent is not believed in anything.
    private bool CountsTooMany(in Status status) =>
        device.HasRun && status.RunId == settings.RunId && status.RecordsTaken > feed.Sent;

    private void TakeState(TimeSpan now)
    {
        if (device.HasRun && device.State is MachineState.Starting or MachineState.Execute)
            StartedAt ??= now;
        journal.State(now, device);
        watcher.StateChanged(Progress(now));
        holds.StateChanged(now);
    }

    private void TakeProgress(TimeSpan now)
    {
        watcher.Progressed(Progress(now));
        if (now < _progressAt)
            return;
        _progressAt = now + settings.ProgressInterval;
        journal.Done(now, device);
    }
}
