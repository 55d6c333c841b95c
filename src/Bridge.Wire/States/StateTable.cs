namespace Bridge.Wire;

/// <summary>
/// The one table of states and commands: the 2015 edition of ISA-TR88.00.02. Where the editions differ: Hold is accepted in Execute
/// and, as the 2022 defaults have it, in Suspended; Complete is accepted in Execute alone, as in 2015.
/// </summary>
public static class StateTable
{
    /// <summary>The state that <paramref name="command"/> leads to from <paramref name="state"/>, or null where it is refused.</summary>
    public static MachineState? Next(MachineState state, MachineCommand command) => (command, state) switch
    {
        (MachineCommand.Reset, MachineState.Stopped or MachineState.Complete) => MachineState.Resetting,
        (MachineCommand.Start, MachineState.Idle) => MachineState.Starting,
        (MachineCommand.Hold, MachineState.Execute or MachineState.Suspended) => MachineState.Holding,
        (MachineCommand.Unhold, MachineState.Held) => MachineState.Unholding,
        (MachineCommand.Suspend, MachineState.Execute) => MachineState.Suspending,
        (MachineCommand.Unsuspend, MachineState.Suspended) => MachineState.Unsuspending,
        (MachineCommand.Complete, MachineState.Execute) => MachineState.Completing,
        (MachineCommand.Stop, _) when CanStop(state) => MachineState.Stopping,
        (MachineCommand.Abort, _) when CanAbort(state) => MachineState.Aborting,
        (MachineCommand.Clear, MachineState.Aborted) => MachineState.Clearing,
        _ => null,
    };

    /// <summary>The state that follows by itself when what <paramref name="state"/> does is complete, or null where nothing follows.
    /// Execute is left for Completing when the run's last record is done.</summary>
    public static MachineState? Completed(MachineState state) => state switch
    {
        MachineState.Clearing or MachineState.Stopping => MachineState.Stopped,
        MachineState.Resetting => MachineState.Idle,
        MachineState.Starting or MachineState.Unholding or MachineState.Unsuspending => MachineState.Execute,
        MachineState.Holding => MachineState.Held,
        MachineState.Suspending => MachineState.Suspended,
        MachineState.Execute => MachineState.Completing,
        MachineState.Completing => MachineState.Complete,
        MachineState.Aborting => MachineState.Aborted,
        _ => null,
    };

    /// <summary>True for the ten acting states, the "-ing" ones, which end by themselves. Execute is not among them.</summary>
    public static bool IsActing(MachineState state) => state is not MachineState.Execute && Completed(state) is not null;

    /// <summary>True for one of the seventeen states.</summary>
    public static bool IsDefined(MachineState state) => state is >= MachineState.Clearing and <= MachineState.Complete;

    /// <summary>True for one of the ten commands.</summary>
    public static bool IsDefined(MachineCommand command) => command is >= MachineCommand.Reset and <= MachineCommand.Complete;

    private static bool CanStop(MachineState state) => CanAbort(state)
        && state is not (MachineState.Stopped or MachineState.Stopping or MachineState.Clearing);

    private static bool CanAbort(MachineState state) => IsDefined(state)
        && state is not (MachineState.Aborting or MachineState.Aborted);
}
