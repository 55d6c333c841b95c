using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Adds up how long the parts of a run took, from its journal: each program that goes on with it begins its seconds anew.</summary>
internal sealed class PartTimes
{
    private double _closed; // of the parts before the present one
    private double? _closedJob;
    private double _latest;
    private double? _started;

    /// <summary>Seconds of all parts, each up to its end or to its last entry.</summary>
    public double Seconds => _closed + _latest;

    /// <summary>Seconds of the parts in which the job got under way, from there on; null where it did in none.</summary>
    public double? JobSeconds => _started is { } started ? (_closedJob ?? 0) + _latest - started : _closedJob;

    /// <summary>Takes the next entry.</summary>
    public void Take(JournalEntry entry)
    {
        if (entry.Kind is JournalKind.TakeUp or JournalKind.Restart)
            (_closed, _closedJob, _latest, _started) = (Seconds, JobSeconds, 0, null);
        else if (entry.Kind is not (JournalKind.Referenced or JournalKind.Sealed) && double.IsFinite(entry.Seconds))
            _latest = Math.Max(_latest, entry.Seconds);
        if (entry is { Kind: JournalKind.State, Records: not null, State: nameof(MachineState.Starting) or nameof(MachineState.Execute) })
            _started ??= _latest;
    }
}
