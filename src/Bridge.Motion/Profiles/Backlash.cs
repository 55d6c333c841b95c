using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>
/// Which way each axis moved last, and so where a turn has play to take up. Referencing leaves each axis moving away from its
/// endstop.
/// </summary>
public sealed class Backlash(Machine machine)
{
    private int _x = AwayFromEndstop(machine.X);
    private int _y = AwayFromEndstop(machine.Y);
    private int _z = machine.Z is { } z ? AwayFromEndstop(z) : 1;

    /// <summary>
    /// Notes a move along a way; gives the play in mm that each axis which turns has to take up first, 0 for the others.
    /// </summary>
    public Place Turn(Place way) => new(
        Turned(machine.X, way.XMm, ref _x),
        Turned(machine.Y, way.YMm, ref _y),
        machine.Z is { } z ? Turned(z, way.ZMm, ref _z) : 0);

    /// <summary>
    /// Turns every axis away from its endstop, as referencing leaves it; gives the play in mm to take up for that.
    /// </summary>
    public Place TurnAway() => Turn(new Place(
        AwayFromEndstop(machine.X), AwayFromEndstop(machine.Y), machine.Z is { } z ? AwayFromEndstop(z) : 0));

    private static int AwayFromEndstop(Axis axis) => axis.Endstop == AxisEnd.Min ? 1 : -1;

    private static double Turned(Axis axis, double part, ref int last)
    {
        var now = Math.Sign(part);
        if (now == 0 || now == last)
            return 0;
        last = now;
        return now * axis.BacklashMm;
    }
}
