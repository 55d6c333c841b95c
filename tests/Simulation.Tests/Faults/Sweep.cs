namespace Simulation.Tests;

/// <summary>One kind of fault at each of its moments.</summary>
/// <param name="When">What is counted.</param>
/// <param name="What">What strikes.</param>
/// <param name="Milliseconds">For how long, where that matters.</param>
internal sealed record Sweep(Trigger When, Strike What, int Milliseconds = 0)
{
    private const int MostSeeds = 1000;
    private const int DiesAtCell = 6;

    // The first of which the machine finds its zero anew at a layer.
    private static readonly int WithLayers = Enumerable.Range(3, MostSeeds).First(seed => WholeRun.JobOf(seed).LayerAfter(0) is not null);

    /// <summary>Whether the run completes all the same, at once, and nobody has to do anything.</summary>
    public bool LeavesNoTrace { get; init; }

    /// <summary>Whether it strikes a run that is gone on with, after its host has died, and the board is reset before the attempt after that.</summary>
    public bool IsOfResumption { get; init; }

    /// <summary>A defect in the host.</summary>
    public Plant Plant { get; init; }

    /// <summary>The first moment, from 1.</summary>
    public int First { get; init; } = 1;

    /// <summary>From one moment to the next: 1, or more where another sweep is at every moment with what is much alike.</summary>
    public int Stride { get; init; } = 1;

    /// <summary>The seeds of its jobs: turns and the board's frames are many, and layers are not in every job.</summary>
    public int[] Seeds => When switch
    {
        Trigger.Turn or Trigger.Layer => [WithLayers],
        Trigger.BoardFrame => [1, 2],
        _ => [1, 2, WithLayers],
    };

    /// <summary>The attempt that it strikes, from 0.</summary>
    public int Attempt => IsOfResumption ? 1 : 0;

    /// <summary>The run in which it strikes at a moment.</summary>
    public WholeRun At(int at, int seed) => new(BoardLibrary.AsItIs, seed, (attempt, _) => Of(attempt, at) is { } fault
        ? new FaultPlan { Faults = [fault] } : FaultPlan.None) { Plant = Plant };

    /// <inheritdoc/>
    public override string ToString() => $"{When} {What} {Milliseconds}{(IsOfResumption ? " of a resumption" : "")}";

    private Fault? Of(int attempt, int at) => (attempt - Attempt) switch
    {
        -1 => new Fault(Trigger.Cell, DiesAtCell, Strike.KillHost),
        0 => new Fault(When, at, What, Milliseconds),
        1 when IsOfResumption => new Fault(Trigger.Turn, 1, Strike.ResetBoard),
        _ => null,
    };
}
