using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.History;

/// <summary>
/// A run played back from its journal, entry by entry: what was known of it at each moment. Its clock counts the time that programs were at the run:
/// one that was cut off and gone on with has no gap in it.
/// </summary>
public sealed class Replay
{
    private readonly PastRun _run;
    private readonly double[] _clock;
    private readonly bool _followsCells;
    private readonly List<SettledDoubt> _doubts = [];
    private int _next;
    private Course? _course;
    private WorkTracker? _tracker;

    /// <summary>At the run's beginning. Where the folder's job is not the one that was run, no place and no cells are known.</summary>
    /// <param name="run">The run.</param>
    /// <param name="followsCells">Whether the cells are wanted; without them it is faster.</param>
    public Replay(PastRun run, bool followsCells = true)
    {
        (_run, _clock, _followsCells) = (run, ClockOf(run.Journal.Entries), followsCells);
        Rewind();
    }

    /// <summary>The run's clock at its last entry, in seconds.</summary>
    public double Length => _clock[^1];

    /// <summary>The entry that was played last; the first before any.</summary>
    public JournalEntry Entry => _run.Journal.Entries[Math.Max(0, _next - 1)];

    /// <summary>The run's clock at that entry, in seconds.</summary>
    public double Seconds => _clock[Math.Max(0, _next - 1)];

    /// <summary>The state that the device was in; Undefined before it has answered.</summary>
    public MachineState State { get; private set; }

    /// <summary>Why it was.</summary>
    public StateCause Cause { get; private set; }

    /// <summary>The place that the job had reached.</summary>
    public JobPlace Place { get; private set; }

    /// <summary>Where the machine was, as x, y, layer, head; empty before it is known.</summary>
    public string Position { get; private set; } = "";

    /// <summary>The cells that were worked; null where they are not wanted, or the folder's job is not the one that was run.</summary>
    public WorkedCells? Worked => _tracker?.Worked;

    /// <summary>The layer that was last worked on or stood on, from 0.</summary>
    public int Layer => Position.Split(' ') is [_, _, var layer, _] && int.TryParse(layer, out var number) ? number : 0;

    /// <summary>What had been in doubt so far when the run was gone on with, and how that was settled.</summary>
    public IReadOnlyList<SettledDoubt> Doubts => _doubts;

    /// <summary>Plays the next entry; false at the end.</summary>
    public bool TryNext()
    {
        if (_next == _clock.Length)
            return false;
        Take(_run.Journal.Entries[_next++]);
        return true;
    }

    /// <summary>Goes to a moment: every entry up to it has been played and none after it.</summary>
    public void GoTo(double seconds)
    {
        if (_next > 0 && _clock[_next - 1] > seconds)
            Rewind();
        while (_next < _clock.Length && _clock[_next] <= seconds)
            Take(_run.Journal.Entries[_next++]);
    }

    private void Rewind()
    {
        _course = _run.Job is { } job ? Course.Whole(job.Job.Image, job.Machine.Grid) : null;
        _tracker = _followsCells && _course is not null ? new WorkTracker(_course) : null;
        _doubts.Clear();
        (_next, State, Cause, Place, Position) = (0, MachineState.Undefined, StateCause.None, JobPlace.Beginning, "");
    }

    private void Take(JournalEntry entry)
    {
        switch (entry.Kind)
        {
            case JournalKind.Restart when _run.Job is { } job:
                Place = new JobPlace(Math.Clamp(entry.Records ?? 0, 0, job.RecordsToSend), Math.Max(0, entry.Cells ?? 0));
                _course = Course.From(job.Job.Image, job.Machine.Grid, Place);
                _tracker = _followsCells ? new WorkTracker(_course, _tracker!.Worked) : null;
                break;
            case JournalKind.State or JournalKind.Done or JournalKind.End when _course is not null && entry.Records is { } records:
                _tracker?.AdvanceTo(records, entry.Cells ?? 0);
                Place = _course.PlaceOf(Math.Max(0, records), Math.Max(0, entry.Cells ?? 0));
                break;
        }

        if (entry.Kind == JournalKind.State)
        {
            State = Enum.TryParse<MachineState>(entry.State, out var state) ? state : MachineState.Undefined;
            Cause = Enum.TryParse<StateCause>(entry.Cause, out var cause) ? cause : StateCause.None;
        }

        if (entry.Doubt is { } doubt)
            _doubts.Add(doubt);
        Position = entry.Position ?? Position;
    }

    // Each program's seconds begin anew. A clock that went back, which a steady one does not, stands still.
    private static double[] ClockOf(IReadOnlyList<JournalEntry> entries)
    {
        var clock = new double[entries.Count];
        var (offset, latest) = (0.0, 0.0);
        for (var index = 0; index < entries.Count; index++)
        {
            if (index > 0 && IsNewProgram(entries, index))
                offset = latest;
            latest = Math.Max(latest, double.IsFinite(entries[index].Seconds) ? offset + entries[index].Seconds : latest);
            clock[index] = latest;
        }

        return clock;
    }

    // A restart is told after what was done before it, both by the new program.
    private static bool IsNewProgram(IReadOnlyList<JournalEntry> entries, int index) => entries[index].Kind switch
    {
        JournalKind.TakeUp => true,
        JournalKind.Done => index + 1 < entries.Count && entries[index + 1].Kind == JournalKind.Restart,
        _ => false,
    };
}
