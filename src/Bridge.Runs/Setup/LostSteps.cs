using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>How far the count of one axis was off when its endstop closed again.</summary>
/// <param name="Axis">The axis.</param>
/// <param name="Steps">Steps by which the carriage really stood below where the board believed it: positive where it had lost steps on the way up.</param>
/// <param name="Mm">The same in mm.</param>
public sealed record LostSteps(AxisName Axis, int Steps, double Mm)
{
    /// <summary>
    /// The standard uncertainty of it, in mm; null where it was never measured how well the axis finds its zero. It is a difference of two references, each
    /// of which scatters (GUM 4.2.3, type A) and is counted in whole steps (GUM 4.3.7, type B).
    /// </summary>
    public double? UncertaintyMm { get; init; }

    /// <summary>Of each axis whose count means something; none of a board that was referenced for the first time.</summary>
    public static IEnumerable<LostSteps> Of(Machine machine, References told)
    {
        var counts = new[] { told.X, told.Y, told.Z };
        foreach (var (name, axis) in new[] { (AxisName.X, machine.X), (AxisName.Y, machine.Y), (AxisName.Z, machine.Z) })
            if (axis is not null && told.Known.HasFlag(BitOf(name)))
                yield return Of(name, axis, counts[(int)name], told.WentUp.HasFlag(BitOf(name)));
    }

    private static BoardAxes BitOf(AxisName name) => (BoardAxes)(1 << (int)name);

    private static LostSteps Of(AxisName name, Axis axis, int counted, bool wentUp)
    {
        var told = SetupMessages.OfAxis((byte)name, axis);
        var atMax = axis.Endstop == AxisEnd.Max;
        var far = (int)(((long)(axis.Cells - 1) * told.StepsPerCellQ16 + 0x8000) >> 16);
        var closesAt = atMax ? far + (int)told.EndstopGapSteps : -(int)told.EndstopGapSteps;
        var play = wentUp == atMax ? 0 : atMax ? told.BacklashSteps : -told.BacklashSteps; // its first steps only took up the play
        var off = counted - play - closesAt;
        return new LostSteps(name, off, off / axis.StepsPerMm) { UncertaintyMm = UncertaintyOf(axis) };
    }

    private static double? UncertaintyOf(Axis axis)
    {
        if (axis.Repeat is not { } repeat)
            return null;
        var ofAStep = 1 / axis.StepsPerMm / (2 * Math.Sqrt(3));
        return Math.Round(Measured.Combined(repeat.DeviationMm, repeat.DeviationMm, ofAStep, ofAStep), 6);
    }
}
