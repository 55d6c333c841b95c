using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>A controlled stop within an act: what is still done of it, and what is left for later.</summary>
/// <param name="Last">What is still done.</param>
/// <param name="Seconds">How much of Last has been done already, in seconds.</param>
/// <param name="Rest">What is left; kind none where nothing is.</param>
public readonly record struct Stopping(Act Last, double Seconds, Act Rest)
{
    /// <summary>
    /// Stops an act as soon as it may: work at the next cell where it can come to rest, a move without work at once, waiting
    /// at once; a time for the head or the pen is served to its end.
    /// </summary>
    /// <param name="act">The act that is being done.</param>
    /// <param name="seconds">How long it has been done, 0 up to all its seconds.</param>
    /// <param name="cellsDone">How many of its cells are worked already.</param>
    public static Stopping Of(Act act, double seconds, int cellsDone) => act.Kind switch
    {
        ActKind.WorkMove or ActKind.IdleMove or ActKind.Rise when act.Profile.DistanceMm > 0 => Move(act, seconds, cellsDone),
        ActKind.WorkDots when act.Cells > 1 => Dots(act, seconds),
        ActKind.Wait => new(act with { StandSeconds = seconds }, seconds, act with { StandSeconds = act.StandSeconds - seconds }),
        _ => new(act, seconds, default),
    };

    /// <summary>
    /// No controlled stop of a machine takes longer: a dot or a pen and a head change are served to their ends, and an axis slows down from its top speed.
    /// </summary>
    public static TimeSpan Longest(Machine machine)
    {
        var tools = new[] { machine.A, machine.B }.OfType<HeadTool>();
        var axes = new[] { machine.X, machine.Y, machine.Z }.OfType<Axis>();
        return machine.HeadChange + tools.Max(Longest) + TimeSpan.FromSeconds(axes.Max(axis => axis.TopSpeedMmS / axis.AccelMmS2));
    }

    private static TimeSpan Longest(HeadTool tool) => tool switch
    {
        HeadTool.Dot dot => dot.PerCell,
        HeadTool.Pen pen => pen.Lower + pen.Lift,
        _ => throw new UnreachableException(),
    };

    private static Stopping Move(Act act, double seconds, int cellsDone)
    {
        var position = act.Profile.PositionAt(seconds);
        var toRest = act.Profile.ToRest(seconds, act.SpacingMm);
        var stop = position + toRest.DistanceMm;
        var left = act.Profile.DistanceMm - stop;
        var cellsLeft = act.Cells == 0 ? 0 : (int)Math.Round(left / act.SpacingMm);
        Debug.Assert(cellsDone + cellsLeft <= act.Cells, "No cell is worked twice.");
        var at = Place.Between(act.From, act.To, stop / act.Profile.DistanceMm);
        var last = act with { From = act.PlaceAt(seconds), To = at, Profile = toRest, Cells = act.Cells - cellsDone - cellsLeft };
        if (left <= 1e-9 * act.Profile.DistanceMm)
            return new(last with { To = act.To }, 0, default);
        var rest = act with { From = at, Profile = new(left, act.Profile.LimitMmS, act.Profile.AccelMmS2), Cells = cellsLeft };
        return new(last, 0, rest);
    }

    private static Stopping Dots(Act act, double seconds)
    {
        var done = (int)Math.Min(act.Cells, Math.Ceiling(seconds / act.SecondsOfDot - 1e-9));
        var at = Place.Between(act.From, act.To, (double)done / act.Cells);
        var rest = act.Cells - done;
        return new(act with { To = at, Cells = done }, seconds, rest == 0 ? default : act with { From = at, Cells = rest });
    }
}
