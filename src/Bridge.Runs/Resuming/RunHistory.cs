using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// Where a run stands by its journal: what it last knew of the work, and what it had sent. A run that was resumed after a restart of its device
/// consists of several stretches, each with a course of its own.
/// </summary>
public sealed class RunHistory
{
    private readonly string _name;
    private readonly Image _image;
    private readonly Grid _grid;
    private readonly long _recordsOfJob;
    private readonly string _machineDigest;
    private readonly string _jobDigest;
    private readonly List<(JobPlace From, JobPlace To)> _worked = [];
    private readonly List<SettledDoubt> _settled = [];
    private readonly PartTimes _times = new();
    private DateTimeOffset? _began;
    private bool _isTakenUp; // what had been sent and not arrived is sent again, up to fewer records at first

    private RunHistory(string name, ProvedJob job)
    {
        (_name, _image, _grid, _recordsOfJob) = (name, job.Job.Image, job.Machine.Grid, job.RecordsToSend);
        (_machineDigest, _jobDigest) = (job.Machine.Digest.ToString(), job.JobDigest);
        Course = Course.Whole(_image, _grid);
    }

    /// <summary>The run's number on the wire.</summary>
    public ushort RunId { get; private set; }

    /// <summary>The course that the device last executed.</summary>
    public Course Course { get; private set; }

    /// <summary>The record of the job before which that course was to end for now; null for the job's end.</summary>
    public long? Until { get; private set; }

    /// <summary>Records of that course that were sent, or were about to be.</summary>
    public long Sent { get; private set; }

    /// <summary>Records of that course that are known to be done.</summary>
    public long Records { get; private set; }

    /// <summary>Cells of the next one that are known to be done.</summary>
    public long Cells { get; private set; }

    /// <summary>How the run ended; null where its program was cut off.</summary>
    public RunOutcome? Outcome { get; private set; }

    /// <summary>Whether the device itself said, at the run's end, how far it came.</summary>
    public bool EndIsKnown { get; private set; }

    /// <summary>Entries of the journal.</summary>
    public long Entries { get; private set; }

    /// <summary>What the records of the whole run need of it.</summary>
    public EarlierParts Parts => new(_began, _times.Seconds, _times.JobSeconds, _settled);

    /// <summary>The place that is known to have been reached.</summary>
    public JobPlace Known => Course.PlaceOf(Records, Cells);

    /// <summary>Reads it from a run's journal.</summary>
    /// <exception cref="RefusedException">The journal tells of what cannot be.</exception>
    public static RunHistory Of(JournalFile journal, string name, ProvedJob job)
    {
        var history = new RunHistory(name, job);
        foreach (var entry in journal.Entries)
            history.Take(entry);
        return history;
    }

    /// <summary>The cells that were worked if the present course has come to a place of the job.</summary>
    public WorkedCells WorkedUpTo(JobPlace place) => WorkedOf([.. _worked, (Course.Start, place)]);

    /// <summary>The furthest that the present course may have come where something is in doubt.</summary>
    public JobPlace Furthest(Doubt doubt) => doubt.RecordsAfter > 0 ? Course.PlaceOf(Sent, 0) : doubt.Skip;

    /// <summary>The cells that are known to have been worked by the courses before the present one.</summary>
    public WorkedCells WorkedBefore() => WorkedOf(_worked);

    private void Take(JournalEntry entry)
    {
        Entries++;
        _times.Take(entry);
        switch (entry.Kind)
        {
            case JournalKind.Begin:
                (RunId, _began, Until) = (RunOf(entry), entry.At, UntilOf(entry));
                RefuseOther("machine file", entry.MachineDigest, _machineDigest);
                RefuseOther("job", entry.JobDigest, _jobDigest);
                break;
            case JournalKind.TakeUp:
                (Outcome, _isTakenUp) = (null, true);
                break;
            case JournalKind.Restart:
                Restart(entry);
                break;
            case JournalKind.Sent:
                Sent = Math.Max(Sent, Within(entry, _isTakenUp ? 0 : Sent, entry.Records, Course.Records(_recordsOfJob)));
                break;
            case JournalKind.State or JournalKind.Done or JournalKind.End when entry.Records is not null:
                Records = Within(entry, Records, entry.Records, Sent);
                Cells = Within(entry, 0, entry.Cells, int.MaxValue);
                break;
        }

        if (entry.Kind == JournalKind.End && Enum.TryParse<RunOutcome>(entry.Outcome, out var outcome))
            (Outcome, EndIsKnown) = (outcome, entry.Records is not null);
    }

    private void RefuseOther(string what, string? ran, string beside)
    {
        if (ran != beside)
            throw new RefusedException($"{_name}, line 1", $"a run with the {what} {ran ?? "that is not named"}", $"the one beside it, {beside}",
                $"The {what} in the run's folder was changed: put the old one back, or run the job from its beginning.");
    }

    private void Restart(JournalEntry entry)
    {
        _worked.Add((Course.Start, Known));
        var start = new JobPlace(Within(entry, 0, entry.Records, _recordsOfJob), Within(entry, 0, entry.Cells, int.MaxValue));
        (RunId, Course, Until, Outcome) = (RunOf(entry), Course.From(_image, _grid, start), UntilOf(entry), null);
        (Sent, Records, Cells, _isTakenUp) = (0, 0, 0, false);
        if (entry.Doubt is { } doubt)
            _settled.Add(doubt);
    }

    private ushort RunOf(JournalEntry entry) => (ushort)Within(entry, 1, entry.Run, ushort.MaxValue);

    private long? UntilOf(JournalEntry entry) => entry.Until is null ? null : Within(entry, 1, entry.Until, _recordsOfJob);

    private long Within(JournalEntry entry, long least, long? found, long most) => found >= least && found <= most
        ? found.Value
        : throw new RefusedException($"{_name}, line {entry.N + 1}", $"{entry.Kind} with {found?.ToString() ?? "nothing"}", $"{least} to {most}",
            "The journal was changed or damaged: do not go on from it.");

    private WorkedCells WorkedOf(IReadOnlyList<(JobPlace From, JobPlace To)> stretches)
    {
        var worked = new WorkedCells(_grid);
        var passes = new PassReader(_image, _grid);
        var furthest = stretches.Select(stretch => stretch.To).DefaultIfEmpty().Max();
        for (var record = 0L; record <= furthest.Records && passes.TryNext(out var pass); record++)
        {
            var cells = 0L;
            foreach (var cell in pass.Work)
            {
                var place = new JobPlace(record, cells++);
                if (stretches.Any(stretch => stretch.From <= place && place < stretch.To))
                    worked.Add(cell, pass.Entry.Layer, pass.Entry.Head);
            }
        }

        return worked;
    }
}
