using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>How a run can be gone on with, from what its journal says and what its device says now.</summary>
public abstract record ResumePoint
{
    private ResumePoint()
    {
    }

    /// <summary>The device has the run still: it goes on at the next cell, with nothing in doubt.</summary>
    public sealed record OnDevice : ResumePoint;

    /// <summary>The device has to reference again and is led back.</summary>
    /// <param name="Known">The place that the job is known to have reached.</param>
    /// <param name="Records">Records of the present course done at that place.</param>
    /// <param name="Cells">Cells of the next one done at that place.</param>
    /// <param name="Doubt">What is not known beyond it; null where all is.</param>
    public sealed record AfterRestart(JobPlace Known, long Records, long Cells, Doubt? Doubt) : ResumePoint;

    /// <summary>Nothing is left to do: every record of the job is executed, whether or not the run's end says so.</summary>
    public sealed record Complete : ResumePoint;

    /// <summary>The device is busy with another run.</summary>
    /// <param name="State">The state that it is in.</param>
    public sealed record Busy(MachineState State) : ResumePoint
    {
        /// <summary>What a person is told of it.</summary>
        public RunEnd End => RunEnds.Busy(State);
    }

    /// <summary>Finds it. The device is in no acting state.</summary>
    public static ResumePoint Of(RunHistory history, ProvedJob job, in Status status)
    {
        if (history.Outcome == RunOutcome.Complete)
            return new Complete();
        var isItsRun = status.RunId == history.RunId && status.RecordsTaken <= history.Sent;
        var isUnderWay = status.State is MachineState.Held or MachineState.Suspended or MachineState.Execute or MachineState.Complete;
        if (isUnderWay && isItsRun && !HasDoneItsLayers(history, status))
            return new OnDevice();
        if (isUnderWay && status.State != MachineState.Complete)
            return new Busy(status.State);
        var after = isItsRun ? Told(history, job, status) : Remembered(history, job);
        return after.Known.Records >= job.RecordsToSend ? new Complete() : after;
    }

    // The device says where it came to. Where it did not come to rest, it may have been on its way to the next cell.
    private static AfterRestart Told(RunHistory history, ProvedJob job, in Status status)
    {
        var known = history.Course.PlaceOf(status.RecordsDone, status.CellsDone).Whole(job.Job.Image, job.Machine.Grid);
        return new AfterRestart(known, status.RecordsDone, status.CellsDone,
            CameToRest(history) || HasDoneItsLayers(history, status) ? null : Doubt.OfNextCell(known, job.Job.Image, job.Machine.Grid));
    }

    private static AfterRestart Remembered(RunHistory history, ProvedJob job)
    {
        var (image, grid) = (job.Job.Image, job.Machine.Grid);
        var known = history.Known.Whole(image, grid);
        var doubt = history.Outcome switch
        {
            _ when CameToRest(history) => null,
            RunOutcome.Aborted when history.EndIsKnown => Doubt.OfNextCell(known, image, grid),
            _ => Doubt.OfSent(known, history.Course.PlaceOf(history.Sent, 0), image, grid),
        };
        return new AfterRestart(known, history.Records, history.Cells, doubt);
    }

    // One that was stopped before the device was heard says nothing of what the device did since.
    private static bool CameToRest(RunHistory history) =>
        history.Outcome is RunOutcome.Stopped or RunOutcome.HeldTooLong or RunOutcome.LayerDone && history.EndIsKnown;

    // It was told to execute the job up to a change of layer, and has.
    private static bool HasDoneItsLayers(RunHistory history, in Status status) => status.State == MachineState.Complete && history.Until is not null;
}
