using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Teaching;

/// <summary>
/// The steps of an act: each axis makes one where the carriage's way along it comes half-way between two steps, so that its count is the place's nearest at
/// any time. Play is taken up in steps of its own.
/// </summary>
internal static class ActPulses
{
    /// <summary>All of them, in time: seconds since the act's start, and the axis.</summary>
    /// <param name="act">The act.</param>
    /// <param name="steps">Steps for one unit of length of each axis.</param>
    public static List<(double Seconds, AxisName Axis)> Of(Act act, Place steps)
    {
        var pulses = new List<(double, AxisName)>();
        Add(AxisName.X, act.From.XMm * steps.XMm, act.To.XMm * steps.XMm, act.Play.XMm * steps.XMm);
        Add(AxisName.Y, act.From.YMm * steps.YMm, act.To.YMm * steps.YMm, act.Play.YMm * steps.YMm);
        Add(AxisName.Z, act.From.ZMm * steps.ZMm, act.To.ZMm * steps.ZMm, act.Play.ZMm * steps.ZMm);
        pulses.Sort((one, other) => one.Item1.CompareTo(other.Item1));
        return pulses;

        void Add(AxisName axis, double from, double to, double play)
        {
            var (first, last, way) = (Math.Round(from), Math.Round(to), Math.Sign(to - from));
            for (var count = first; count != last; count += way)
                pulses.Add((act.SecondsAtPart(Math.Clamp((count + way / 2.0 - from) / (to - from), 0, 1)), axis));
            var taken = Math.Round(Math.Abs(play));
            for (var count = 0; count < taken; count++)
                pulses.Add((act.Profile.SecondsAt(act.Profile.DistanceMm * (count + 0.5) / taken), axis));
        }
    }

    /// <summary>Whether an axis grows in an act; null where it does not move.</summary>
    public static bool? IsGrowing(Act act, AxisName axis)
    {
        var (way, play) = (act.To - act.From, act.Play);
        return Math.Sign(axis switch { AxisName.X => way.XMm + play.XMm, AxisName.Y => way.YMm + play.YMm, _ => way.ZMm + play.ZMm }) switch
        {
            0 => null,
            var sign => sign > 0,
        };
    }
}
