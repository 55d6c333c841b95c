using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>What a machine's state means to who stands beside it, as IEC 60204-1 and IEC 60073 part the colours of lamps and screens.</summary>
public enum Sign
{
    /// <summary>None of the others. White.</summary>
    Neutral,

    /// <summary>It works. Green.</summary>
    Normal,

    /// <summary>It holds or waits for a reason that nobody asked for. Yellow.</summary>
    Abnormal,

    /// <summary>Somebody must act: start it, or go on. Blue.</summary>
    Action,

    /// <summary>The e-stop, motors off. Red.</summary>
    Emergency,
}

/// <summary>Signs of states.</summary>
public static class Signs
{
    /// <summary>What a state means, for its cause.</summary>
    public static Sign Of(MachineState state, StateCause cause) => state switch
    {
        MachineState.Aborting => Sign.Emergency,
        MachineState.Aborted when cause != StateCause.PowerOn => Sign.Emergency,
        MachineState.Held when cause is StateCause.Operator or StateCause.OperatorWait => Sign.Action,
        MachineState.Holding or MachineState.Held or MachineState.Suspending or MachineState.Suspended or MachineState.Stopping => Sign.Abnormal,
        MachineState.Starting or MachineState.Execute or MachineState.Unholding or MachineState.Unsuspending or MachineState.Completing
            or MachineState.Complete => Sign.Normal,
        _ => Sign.Neutral,
    };
}
