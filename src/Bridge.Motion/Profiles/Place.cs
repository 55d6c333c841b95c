namespace Bridge.Motion;

/// <summary>Where the carriage is, in mm from its place with an offset-less head at cell (0, 0) on layer 0.</summary>
/// <param name="XMm">Along X in mm.</param>
/// <param name="YMm">Along Y in mm.</param>
/// <param name="ZMm">Along Z in mm.</param>
public readonly record struct Place(double XMm, double YMm, double ZMm)
{
    /// <summary>The way from one place to another.</summary>
    public static Place operator -(Place to, Place from) => new(to.XMm - from.XMm, to.YMm - from.YMm, to.ZMm - from.ZMm);

    /// <summary>The length of the straight way from (0, 0, 0), in mm.</summary>
    public double LengthMm => ZMm == 0 && (XMm == 0 || YMm == 0)
        ? Math.Abs(XMm + YMm)
        : Math.Sqrt(XMm * XMm + YMm * YMm + ZMm * ZMm);

    /// <summary>The place at a part, 0 to 1, of the straight way from one place to another.</summary>
    public static Place Between(Place from, Place to, double part) => part >= 1 ? to : new(
        from.XMm + (to.XMm - from.XMm) * part,
        from.YMm + (to.YMm - from.YMm) * part,
        from.ZMm + (to.ZMm - from.ZMm) * part);
}
