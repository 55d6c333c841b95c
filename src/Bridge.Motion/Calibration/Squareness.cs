using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>How far the angle between X and Y is from a right one.</summary>
/// <param name="Degrees">By how much the angle from X to Y is less than 90 degrees: positive where Y leans towards X.</param>
public readonly record struct Squareness(Measured Degrees)
{
    private const double MostSine = 0.2; // 11 degrees: nobody builds that

    /// <summary>How far Y leans over 100 mm, in mm.</summary>
    public double MmIn100 => 100 * Math.Tan(Radians(Degrees.Value));

    /// <summary>
    /// From a rectangle that the machine was told: of a parallelogram with sides a, b the diagonals obey d1² - d2² = 4 a b cos(angle), d1 from the first
    /// corner to the far one. Uncertainty by the law of propagation (GUM 5.1.2) with d/(2 a b) for each diagonal.
    /// </summary>
    /// <param name="sideX">The side along X, in mm.</param>
    /// <param name="sideY">The side along Y, in mm.</param>
    /// <param name="rising">The diagonal from (0, 0) to the corner far along both, in mm.</param>
    /// <param name="falling">The other diagonal, in mm.</param>
    /// <exception cref="RefusedException">A length is not above 0, or the diagonals are those of no rectangle.</exception>
    public static Squareness Of(double sideX, double sideY, Measured rising, Measured falling)
    {
        foreach (var (what, mm) in new[] { ("side x", sideX), ("side y", sideY), ("rising diagonal", rising.Value), ("falling diagonal", falling.Value) })
            if (!(mm > 0) || !double.IsFinite(mm))
                throw new RefusedException(what, FormattableString.Invariant($"{mm} mm"), "a length above 0", "Measure again.");
        var sine = (rising.Value * rising.Value - falling.Value * falling.Value) / (4 * sideX * sideY);
        var length = Math.Sqrt((rising.Value * rising.Value + falling.Value * falling.Value) / 2 / (sideX * sideX + sideY * sideY));
        if (Math.Abs(sine) > MostSine || length is > 2 or < 0.5)
            throw new RefusedException("diagonals", FormattableString.Invariant($"{rising.Value} and {falling.Value} mm at sides of {sideX} and {sideY} mm"),
                "the diagonals of nearly a rectangle", "Measure again, from centre to centre of the corners.");
        var uncertainty = Measured.Combined(rising.Value * rising.Uncertainty, falling.Value * falling.Uncertainty) / (2 * sideX * sideY);
        return new Squareness(new Measured(Degree(Math.Asin(sine)), Degree(uncertainty / Math.Sqrt(1 - sine * sine))));
    }

    private static double Degree(double radians) => radians * 180 / Math.PI;

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}
