using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>New values of a machine file out of what was measured. Lengths in mm.</summary>
public static class Calibrations
{
    private const double MostChange = 2; // beyond that a unit or a distance was mistaken, or the machine is not the one that the file describes
    private const double MostBacklash = 10;
    private const double Near = 0.05;

    private static readonly (double Factor, string Words)[] Units =
    [
        (10, "is it in cm?"), (0.1, "is it ten times what was asked?"), (25.4, "is it in inches?"), (1 / 25.4, "was a distance in inches taken for mm?"),
    ];

    /// <summary>
    /// Steps for a mm, from a way that the machine was told to go and the way that it went: new = old * told / measured. The relative uncertainty
    /// is that of what was measured (GUM 5.1.6).
    /// </summary>
    /// <exception cref="RefusedException">A length is not above 0, or the two differ by more than a factor of 2.</exception>
    public static Calibrated Scale(Machine machine, AxisName name, double told, Measured measured)
    {
        var axis = AxisOf(machine, name);
        RefuseLength("told", told);
        RefuseLength("measured", measured.Value);
        var ratio = told / measured.Value;
        if (ratio is > MostChange or < 1 / MostChange)
            throw new RefusedException("measured", Invariant($"{measured.Value} mm where {told} mm were told"),
                Invariant($"{told / MostChange} to {told * MostChange} mm"),
                Units.FirstOrDefault(unit => Math.Abs(ratio / unit.Factor - 1) < Near) is { Words: { } words } ? $"Measure again: {words}"
                    : "Measure again; is this the machine that the file describes?");
        var after = axis.StepsPerMm * ratio;
        return new Calibrated($"{KeyOf(name)}.steps_per_mm", axis.StepsPerMm, new Measured(after, after * measured.Uncertainty / measured.Value));
    }

    /// <summary>
    /// Play, from readings at the same place after coming from below and from above: what the file says now and their difference. A machine that takes up
    /// too much play overshoots, and the difference is negative.
    /// </summary>
    /// <exception cref="RefusedException">The play would be more than 10 mm.</exception>
    public static Calibrated Backlash(Machine machine, AxisName name, Measured fromBelow, Measured fromAbove)
    {
        var axis = AxisOf(machine, name);
        var rest = fromAbove - fromBelow;
        var play = axis.BacklashMm + rest.Value;
        if (play > MostBacklash)
            throw new RefusedException("readings", Invariant($"{play:0.###} mm of play"), Invariant($"at most {MostBacklash} mm"),
                "Measure again; or look for a loose belt or screw.");
        return new Calibrated($"{KeyOf(name)}.backlash_mm", axis.BacklashMm, new Measured(Math.Max(0, play), rest.Uncertainty),
            play < -rest.Uncertainty * Measured.Coverage ? "From above it stands lower than from below: were the two readings exchanged?" : null);
    }

    /// <summary>Where head b is, from how far its mark lies from that of head a: what the file says now and that distance.</summary>
    /// <exception cref="RefusedException">The machine has no head b.</exception>
    public static (Calibrated X, Calibrated Y) HeadOffset(Machine machine, Measured x, Measured y)
    {
        var tool = machine.B ?? throw new RefusedException("heads", "no head b", "a machine with two heads", "There is nothing to measure.");
        return (new Calibrated("heads.b.offset_mm[0]", tool.OffsetXMm, new Measured(tool.OffsetXMm + x.Value, x.Uncertainty)),
            new Calibrated("heads.b.offset_mm[1]", tool.OffsetYMm, new Measured(tool.OffsetYMm + y.Value, y.Uncertainty)));
    }

    /// <summary>
    /// How well an axis finds its zero again: readings, mean and deviation of where its endstop closed. The uncertainty of a mean is s / sqrt(n) (GUM 4.2.3),
    /// that of a deviation near s / sqrt(2 (n - 1)) (GUM E.4.3).
    /// </summary>
    public static IReadOnlyList<Calibrated> Repeat(Machine machine, AxisName name, Spread found)
    {
        var before = AxisOf(machine, name).Repeat;
        return
        [
            new($"{KeyOf(name)}.repeat_readings", before?.Readings ?? 0, new Measured(found.Count, 0), IsFinding: true),
            new($"{KeyOf(name)}.repeat_mean_mm", before?.MeanMm ?? 0, new Measured(found.Mean, found.OfMean), IsFinding: true),
            new($"{KeyOf(name)}.repeat_deviation_mm", before?.DeviationMm ?? 0,
                new Measured(found.Deviation, found.Deviation / Math.Sqrt(2 * (found.Count - 1))), IsFinding: true),
        ];
    }

    /// <summary>An axis as a machine has it.</summary>
    /// <exception cref="RefusedException">The machine has no such axis.</exception>
    public static Axis AxisOf(Machine machine, AxisName name) => name switch
    {
        AxisName.X => machine.X,
        AxisName.Y => machine.Y,
        _ => machine.Z ?? throw new RefusedException("axis", "z", "x or y", $"{machine.Name} has no Z."),
    };

    private static string KeyOf(AxisName name) => $"axes.{name.ToString().ToLowerInvariant()}";

    private static void RefuseLength(string what, double mm)
    {
        if (!(mm > 0) || !double.IsFinite(mm))
            throw new RefusedException(what, Invariant($"{mm} mm"), "a length above 0", "Measure again.");
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
