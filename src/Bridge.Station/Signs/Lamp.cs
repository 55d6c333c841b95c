using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station;

/// <summary>The lamp that is lit, and how: the rhythm says the same as the colour, for who does not see colours.</summary>
/// <param name="Color">Its colour; all others are dark.</param>
/// <param name="Hertz">How often it flashes in a second, half of the time lit; 0 is steady.</param>
public readonly record struct Lamp(LampColor Color, double Hertz)
{
    // Within IEC 60073's two ranges, 0.4 to 0.8 Hz and 1.4 to 2.8 Hz (from memory); the faster is for what is more urgent.
    private const double Slow = 0.6;
    private const double Fast = 2;

    /// <summary>The lamp for a machine and the station's e-stop contact.</summary>
    public static Lamp Of(RunProgress run, bool eStopIsClosed)
    {
        if (!eStopIsClosed)
            return new Lamp(LampColor.Red, Fast);
        if (run.AwaitsStart || run.IsHeldBack)
            return new Lamp(LampColor.Blue, Slow);
        return new Lamp(ColorOf(Signs.Of(run.State, run.Cause)), HertzOf(run.State, run.Cause));
    }

    private static LampColor ColorOf(Sign sign) => sign switch
    {
        Sign.Emergency => LampColor.Red,
        Sign.Abnormal => LampColor.Yellow,
        Sign.Normal => LampColor.Green,
        Sign.Action => LampColor.Blue,
        _ => LampColor.White,
    };

    private static double HertzOf(MachineState state, StateCause cause) => state switch
    {
        MachineState.Aborted when cause == StateCause.PowerOn => 0,
        MachineState.Held when cause is StateCause.Operator or StateCause.OperatorWait => Slow,
        MachineState.Completing or MachineState.Complete => Slow,
        MachineState.Starting or MachineState.Execute or MachineState.Unholding or MachineState.Unsuspending => 0,
        MachineState.Aborting or MachineState.Aborted or MachineState.Holding or MachineState.Held or MachineState.Suspending or MachineState.Suspended
            or MachineState.Stopping or MachineState.Resetting or MachineState.Clearing => Fast,
        _ => 0,
    };

    /// <summary>Whether it is lit at a time.</summary>
    public bool IsLit(TimeSpan now) => Hertz == 0 || now.TotalSeconds * Hertz % 1 < 0.5;
}
