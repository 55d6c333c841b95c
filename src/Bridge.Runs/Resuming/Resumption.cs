namespace Bridge.Runs;

/// <summary>A run that is gone on with: where its course begins, and what is known of it.</summary>
public sealed record Resumption
{
    private Resumption(RunHistory history, ushort runId, Course course, WorkedCells worked)
    {
        (RunId, Course, Worked) = (runId, course, worked);
        (Entries, Earlier) = (history.Entries, history.Parts);
    }

    /// <summary>The run's number on the wire.</summary>
    public ushort RunId { get; }

    /// <summary>The course that the device executes.</summary>
    public Course Course { get; }

    /// <summary>What was worked before the course began.</summary>
    public WorkedCells Worked { get; }

    /// <summary>Where the device has the run still: what is known before it is heard. Else null.</summary>
    internal (JobPlace Place, WorkedCells Worked)? Known { get; private init; }

    /// <summary>Entries of the journal so far.</summary>
    public long Entries { get; }

    /// <summary>The run so far, for the records of the whole.</summary>
    public EarlierParts Earlier { get; }

    /// <summary>What was in doubt and how that is settled; null where nothing was.</summary>
    public SettledDoubt? Settled { get; private init; }

    /// <summary>Where the device has the run still: the most records that it may have taken. Else null.</summary>
    public long? SentBefore { get; private init; }

    /// <summary>Where the device has the run still: the record of the job before which it ends for now; null at the job's end.</summary>
    public long? Until { get; private init; }

    /// <summary>Where it begins anew: records and cells that the device had done along its course before; the journal may lag behind.</summary>
    internal (long Records, long Cells) DoneBefore { get; private init; }

    /// <summary>On a device that has the run still.</summary>
    public static Resumption OnDevice(RunHistory history) =>
        new(history, history.RunId, history.Course, history.WorkedBefore())
        {
            SentBefore = history.Sent,
            Until = history.Until,
            Known = (history.Known, history.WorkedUpTo(history.Known)),
        };

    /// <summary>On a device that references again and is led back.</summary>
    /// <param name="history">The run so far.</param>
    /// <param name="job">Its job.</param>
    /// <param name="point">What is known.</param>
    /// <param name="from">The place to go on from: the known one, or one end of what is in doubt.</param>
    /// <param name="runId">A new number on the wire.</param>
    public static Resumption AfterRestart(RunHistory history, ProvedJob job, ResumePoint.AfterRestart point, JobPlace from, ushort runId) =>
        new(history, runId, Course.From(job.Job.Image, job.Machine.Grid, from), history.WorkedUpTo(point.Known))
        {
            DoneBefore = (point.Records, point.Cells),
            Settled = point.Doubt is { } doubt ? SettledDoubt.Of(doubt, from) : null,
        };
}
