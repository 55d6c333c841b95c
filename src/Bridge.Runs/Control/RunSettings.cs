namespace Bridge.Runs;

/// <summary>What a run is told beside its job.</summary>
public sealed record RunSettings
{
    /// <summary>The run's number on the wire, 1 to 65535.</summary>
    public required ushort RunId { get; init; }

    /// <summary>The session's token on the wire, random.</summary>
    public required ushort Token { get; init; }

    /// <summary>What executes the run, for the records.</summary>
    public required string Device { get; init; }

    /// <summary>The date and time at which it begins or is gone on with, for the records; null where none is told.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>Whether a wait for the operator is gone on from at once: for dry runs with nobody there.</summary>
    public bool GoesOnAtWaits { get; init; }

    /// <summary>Whether a run that is ready waits until it is asked to start: for an operator with a real button. Default false, it starts by itself.</summary>
    public bool AwaitsStart { get; init; }

    /// <summary>How long a held machine is left waiting for its operator before the run is stopped; null for ever.</summary>
    public TimeSpan? HeldPatience { get; init; }

    /// <summary>Whether a run that the device still holds, say after its cable was pulled, is ended for this one; else the device counts as busy.</summary>
    public bool EndsHeldRun { get; init; }

    /// <summary>
    /// The record of the job, each `again` unrolled, before which the run ends for now: one that begins a layer, and before it the machine finds its zero
    /// anew.
    /// Null to go on to the job's end.
    /// </summary>
    public long? Until { get; init; }

    /// <summary>The layer, from 0, that begins when this run is gone on with: its references then tell how far the counts were off. Else null.</summary>
    public int? LayerBegun { get; init; }

    /// <summary>How much longer than the machine itself needs a controlled stop may take before the machine is stopped at once. Default 10 s.</summary>
    public TimeSpan StopPatience { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>How often the journal is told of progress, at the most. Default 200 ms.</summary>
    public TimeSpan ProgressInterval { get; init; } = TimeSpan.FromMilliseconds(200);
}
