using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>The time that is left of a job after each of its passes.</summary>
public sealed class Countdown
{
    private readonly List<double> _secondsUpTo;

    private Countdown(List<double> secondsUpTo) => _secondsUpTo = secondsUpTo;

    /// <summary>The most passes that a countdown keeps: one million, 8 MB.</summary>
    public const int MostPasses = 1_000_000;

    /// <summary>Passes of the job.</summary>
    public int Passes => _secondsUpTo.Count - 1;

    /// <summary>The countdown of a job; null where it has more than a million passes or a fault.</summary>
    public static Countdown? Of(Image image, Machine machine)
    {
        var passes = new ActingReader(image, machine);
        var secondsUpTo = new List<double> { 0 };
        var now = 0.0;
        while (passes.TryNext(out _, out var acts))
        {
            if (secondsUpTo.Count > MostPasses)
                return null;
            foreach (var act in acts)
                now += act.Seconds;
            secondsUpTo.Add(now);
        }

        foreach (var act in passes.AtEnd())
            now += act.Seconds;
        secondsUpTo[^1] = now;
        return passes.Fault is null ? new Countdown(secondsUpTo) : null;
    }

    /// <summary>Seconds left after some passes, 0 up to all of them; the last one includes what ends the job.</summary>
    public double SecondsLeft(int passesDone) => _secondsUpTo[^1] - _secondsUpTo[Math.Clamp(passesDone, 0, Passes)];
}
