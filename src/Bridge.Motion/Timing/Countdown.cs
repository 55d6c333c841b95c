using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>The time that is left of a job after each of its passes, and within one by its cells.</summary>
public sealed class Countdown
{
    private readonly List<double> _secondsUpTo;
    private readonly List<long> _cellsUpTo;

    private Countdown(List<double> secondsUpTo, List<long> cellsUpTo) => (_secondsUpTo, _cellsUpTo) = (secondsUpTo, cellsUpTo);

    /// <summary>The most passes that a countdown keeps: one million, 16 MB.</summary>
    public const int MostPasses = 1_000_000;

    /// <summary>Passes of the job.</summary>
    public int Passes => _secondsUpTo.Count - 1;

    /// <summary>Seconds that all of it takes.</summary>
    public double Seconds => _secondsUpTo[^1];

    /// <summary>The countdown of a job; null where it has more than a million passes or a fault.</summary>
    public static Countdown? Of(Image image, Machine machine)
    {
        var passes = new ActingReader(image, machine);
        var (secondsUpTo, cellsUpTo) = (new List<double> { 0 }, new List<long> { 0 });
        var (now, cells) = (0.0, 0L);
        while (passes.TryNext(out var pass, out var acts))
        {
            if (secondsUpTo.Count > MostPasses)
                return null;
            foreach (var act in acts)
                now += act.Seconds;
            cells += pass.Work.Cells;
            secondsUpTo.Add(now);
            cellsUpTo.Add(cells);
        }

        foreach (var act in passes.AtEnd())
            now += act.Seconds;
        secondsUpTo[^1] = now;
        return passes.Fault is null ? new Countdown(secondsUpTo, cellsUpTo) : null;
    }

    /// <summary>Seconds left after some passes and so many cells in all; of the pass that is under way as many parts are gone as of its cells.</summary>
    /// <param name="passesDone">0 up to all of them; the last one includes what ends the job. More count as all.</param>
    /// <param name="cellsDone">Cells of the job that are worked.</param>
    public double SecondsLeft(long passesDone, long cellsDone)
    {
        var done = (int)Math.Clamp(passesDone, 0, Passes);
        var next = Math.Min(done + 1, Passes);
        var ofPass = _cellsUpTo[next] - _cellsUpTo[done];
        var share = ofPass == 0 ? 0 : Math.Clamp((double)(cellsDone - _cellsUpTo[done]) / ofPass, 0, 1);
        return Seconds - _secondsUpTo[done] - share * (_secondsUpTo[next] - _secondsUpTo[done]);
    }
}
