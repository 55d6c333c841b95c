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
        if (run.AwaitsStart)
            return new Lamp(LampColor.Blue, Slow);
        return run.State switch
        {
            MachineState.Aborting => new Lamp(LampColor.Red, Fast),
            MachineState.Aborted when run.Cause != StateCause.PowerOn => new Lamp(LampColor.Red, Fast),
            MachineState.Held when run.Cause is StateCause.Operator or StateCause.OperatorWait => new Lamp(LampColor.Blue, Slow),
            MachineState.Holding or MachineState.Held or MachineState.Suspending or MachineState.Suspended or MachineState.Stopping =>
                new Lamp(LampColor.Yellow, Fast),
            MachineState.Starting or MachineState.Execute or MachineState.Unholding or MachineState.Unsuspending => new Lamp(LampColor.Green, 0),
            MachineState.Completing or MachineState.Complete => new Lamp(LampColor.Green, Slow),
            MachineState.Resetting or MachineState.Clearing => new Lamp(LampColor.White, Fast),
            _ => new Lamp(LampColor.White, 0),
        };
    }

    /// <summary>Whether it is lit at a time.</summary>
    public bool IsLit(TimeSpan now) => Hertz == 0 || now.TotalSeconds * Hertz % 1 < 0.5;
}
