using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Where a run stands.</summary>
/// <param name="State">The device's state; Undefined before it has answered.</param>
/// <param name="Cause">Why it is in that state.</param>
/// <param name="Records">Records done.</param>
/// <param name="RecordsInAll">Records of the whole run.</param>
/// <param name="Cells">Cells worked, both heads.</param>
/// <param name="Layer">The present layer, from 0.</param>
/// <param name="X">The present cell along X.</param>
/// <param name="Y">The present cell along Y.</param>
/// <param name="Elapsed">Time since the run's start on the run's clock.</param>
public readonly record struct RunProgress(
    MachineState State, StateCause Cause, long Records, long RecordsInAll, long Cells, int Layer, int X, int Y, TimeSpan Elapsed)
{
    /// <summary>Whether all is ready and the run waits to be asked to start.</summary>
    public bool AwaitsStart { get; init; }

    /// <summary>Whether the machine is at rest, not yet set going, and the run waits until a Hold that was asked for is taken back.</summary>
    public bool IsHeldBack { get; init; }
}

/// <summary>Whoever watches a run. Called between the run's own steps, so it must return soon.</summary>
public interface IRunWatcher
{
    /// <summary>The device is in another state, or the run begins or ends to wait for its start, or for a Hold to be taken back before it.</summary>
    void StateChanged(RunProgress progress);

    /// <summary>Something was done.</summary>
    void Progressed(RunProgress progress);

    /// <summary>Something happened that a person should know.</summary>
    void Told(string words);
}
