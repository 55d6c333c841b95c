using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.History;

/// <summary>A stretch of a run in one state.</summary>
/// <param name="Begins">When it begins, in seconds on the run's clock.</param>
/// <param name="Seconds">How long it lasts.</param>
/// <param name="State">The state; Undefined before the device answered.</param>
/// <param name="Cause">Why it is in that state.</param>
/// <param name="Place">How far the job was when it began.</param>
public sealed record StateSpan(double Begins, double Seconds, MachineState State, StateCause Cause, JobPlace Place)
{
    /// <summary>The most that are kept: 10 000. A run that changes its state more often is told up to there.</summary>
    public const int Most = 10_000;

    /// <summary>Those of a run, in order.</summary>
    public static IReadOnlyList<StateSpan> Of(PastRun run)
    {
        var spans = new List<StateSpan>();
        var replay = new Replay(run, followsCells: false);
        var begun = new StateSpan(0, 0, MachineState.Undefined, StateCause.None, JobPlace.Beginning);
        while (spans.Count < Most && replay.TryNext())
            if (replay.Entry.Kind is JournalKind.State or JournalKind.TakeUp or JournalKind.Restart)
            {
                Add(spans, begun, replay.Seconds);
                var isKnown = replay.Entry.Kind == JournalKind.State;
                begun = new StateSpan(replay.Seconds, 0, isKnown ? replay.State : MachineState.Undefined,
                    isKnown ? replay.Cause : StateCause.None, replay.Place);
            }

        Add(spans, begun, replay.Seconds);
        return spans;
    }

    private static void Add(List<StateSpan> spans, StateSpan span, double until)
    {
        if (span.State != MachineState.Undefined || until > span.Begins)
            spans.Add(span with { Seconds = until - span.Begins });
    }
}
