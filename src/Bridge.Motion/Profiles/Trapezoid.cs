using System.Diagnostics;

namespace Bridge.Motion;

/// <summary>
/// A speed profile over a distance, from an initial speed to rest: speed up, hold the highest speed, slow down, all at one rate
/// (Lynch and Park, Modern Robotics, section 9.2.2.2). The default value is no distance in no time.
/// </summary>
public readonly record struct Trapezoid
{
    /// <summary>A profile over a distance in mm, 0 and up.</summary>
    /// <param name="distanceMm">Length of the move in mm; at least the stopping distance of the initial speed, v²/2a.</param>
    /// <param name="limitMmS">Highest speed in mm/s, above 0.</param>
    /// <param name="accelMmS2">Rate of speeding up and slowing down in mm/s², above 0.</param>
    /// <param name="initialMmS">Speed at the start in mm/s, 0 up to the highest speed.</param>
    public Trapezoid(double distanceMm, double limitMmS, double accelMmS2, double initialMmS = 0)
    {
        Debug.Assert(distanceMm >= 0 && limitMmS > 0 && accelMmS2 > 0, "Distance and limits are lengths and rates.");
        Debug.Assert(initialMmS >= 0 && initialMmS <= limitMmS * (1 + 1e-9), "It starts within the limit.");
        Debug.Assert(initialMmS * initialMmS <= 2 * accelMmS2 * distanceMm * (1 + 1e-6) + 1e-9, "It can come to rest.");
        (DistanceMm, LimitMmS, AccelMmS2, InitialMmS) = (distanceMm, limitMmS, accelMmS2, initialMmS);
        var reached = Math.Sqrt(accelMmS2 * distanceMm + initialMmS * initialMmS / 2);
        PeakMmS = Math.Max(initialMmS, Math.Min(limitMmS, reached));
        Seconds = UpSeconds + CruiseSeconds + DownSeconds;
    }

    /// <summary>Length in mm.</summary>
    public double DistanceMm { get; }

    /// <summary>Highest speed allowed in mm/s.</summary>
    public double LimitMmS { get; }

    /// <summary>Rate of speeding up and slowing down in mm/s².</summary>
    public double AccelMmS2 { get; }

    /// <summary>Speed at the start in mm/s.</summary>
    public double InitialMmS { get; }

    /// <summary>Highest speed reached in mm/s: the limit, or √(a·d + v₀²/2) where the distance is too short for it.</summary>
    public double PeakMmS { get; }

    /// <summary>How long it takes. From rest: d/v + v/a where d is at least v²/a, else 2·√(d/a).</summary>
    public double Seconds { get; }

    private double UpSeconds => PeakMmS > 0 ? (PeakMmS - InitialMmS) / AccelMmS2 : 0;

    private double CruiseSeconds => PeakMmS > 0 ? Math.Max(0, DistanceMm - UpMm - DownMm) / PeakMmS : 0;

    private double DownSeconds => PeakMmS > 0 ? PeakMmS / AccelMmS2 : 0;

    private double UpMm => (PeakMmS + InitialMmS) / 2 * UpSeconds;

    private double DownMm => PeakMmS / 2 * DownSeconds;

    /// <summary>How far it has come after some seconds, in mm; the ends hold outside the profile.</summary>
    public double PositionAt(double seconds)
    {
        if (seconds <= 0)
            return 0;
        if (seconds >= Seconds)
            return DistanceMm;
        if (seconds <= UpSeconds)
            return (InitialMmS + AccelMmS2 * seconds / 2) * seconds;
        var left = Seconds - seconds;
        return left <= DownSeconds
            ? DistanceMm - AccelMmS2 * left * left / 2
            : UpMm + PeakMmS * (seconds - UpSeconds);
    }

    /// <summary>How fast it moves after some seconds, in mm/s; the ends hold outside the profile.</summary>
    public double SpeedAt(double seconds)
    {
        if (seconds <= 0)
            return InitialMmS;
        if (seconds >= Seconds)
            return 0;
        return Math.Min(PeakMmS, Math.Min(InitialMmS + AccelMmS2 * seconds, AccelMmS2 * (Seconds - seconds)));
    }

    /// <summary>When it passes a place, in seconds; the ends hold for places in mm outside the profile.</summary>
    public double SecondsAt(double positionMm)
    {
        if (positionMm <= 0)
            return 0;
        if (positionMm >= DistanceMm)
            return Seconds;
        if (positionMm <= UpMm)
            return (Math.Sqrt(InitialMmS * InitialMmS + 2 * AccelMmS2 * positionMm) - InitialMmS) / AccelMmS2;
        var left = DistanceMm - positionMm;
        return left <= DownMm
            ? Seconds - Math.Sqrt(2 * left / AccelMmS2)
            : UpSeconds + (positionMm - UpMm) / PeakMmS;
    }

    /// <summary>The shortest way to rest in mm after some seconds: v²/2a.</summary>
    public double StoppingMm(double seconds)
    {
        var speed = SpeedAt(seconds);
        return speed > 0 ? speed * speed / (2 * AccelMmS2) : 0;
    }

    /// <summary>
    /// From where it is after some seconds to rest at the nearest place that it can stop at. The places lie at equal distances
    /// back from the end; it may still speed up on the way to one.
    /// </summary>
    /// <param name="seconds">Seconds since the start.</param>
    /// <param name="spacingMm">Distance between places in mm; 0 means anywhere.</param>
    public Trapezoid ToRest(double seconds, double spacingMm)
    {
        var position = PositionAt(seconds);
        var nearest = Math.Min(DistanceMm, position + StoppingMm(seconds));
        var place = spacingMm <= 0 ? nearest
            : DistanceMm - spacingMm * Math.Floor((DistanceMm - nearest) / spacingMm + 1e-9);
        var way = place - position;
        // No faster than it can stop on that way: the two may differ by the last digits.
        return way <= 0 ? default : new Trapezoid(way, LimitMmS, AccelMmS2, Math.Min(SpeedAt(seconds), Math.Sqrt(2 * AccelMmS2 * way)));
    }
}
