namespace Bridge.History;

/// <summary>
/// The limits of an individuals chart (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2): three times the mean moving range over d2 on either
/// side of the mean.
/// </summary>
/// <param name="Center">The mean.</param>
/// <param name="Lower">The lower limit.</param>
/// <param name="Upper">The upper limit.</param>
public readonly record struct ControlLimits(double Center, double Lower, double Upper)
{
    /// <summary>d2 for ranges of two values: the table of control chart constants in any handbook of quality control.</summary>
    public const double D2 = 1.128;

    /// <summary>Fewer values than this have no limits.</summary>
    public const int Least = 5;

    /// <summary>Of values in order; null where they are too few.</summary>
    public static ControlLimits? Of(IReadOnlyList<double> values)
    {
        if (values.Count < Least)
            return null;
        var center = values.Average();
        var reach = 3 * values.Zip(values.Skip(1), (before, after) => Math.Abs(after - before)).Average() / D2;
        return new ControlLimits(center, center - reach, center + reach);
    }

    /// <summary>Whether a value is beyond them.</summary>
    public bool IsBeyond(double value) => value < Lower || value > Upper;
}
