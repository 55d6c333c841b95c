using System.Globalization;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>Planning that a person can end: Ctrl-C, or the time that was given, takes the best plan so far.</summary>
internal static class TimedPlan
{
    public static Plan Of(Report report, Shape shape, Machine machine, int? seconds, TimeProvider time)
    {
        using var ended = new EarlyEnd(report, seconds, time);
        if (seconds is null)
            return Planner.Plan(shape, machine, ended: ended.Token);
        var start = time.GetTimestamp();
        return LongPlanning.Plan(shape, machine, plan => report.Line(string.Create(CultureInfo.InvariantCulture,
            $"{time.GetElapsedTime(start).TotalSeconds,6:0.0} s: {plan.Records.Count} records, at most {plan.Gap} above the fewest, "
                + $"{Timetable.Of(Image.Of(plan.Width, plan.Records), machine).Seconds:0.0} s of work")), ended.Token);
    }

    /// <summary>The least change with which a shape's job fits, or what comes nearest.</summary>
    public static Fitted Fit(Report report, Shape shape, Machine machine, FitLimits limits, int? seconds, TimeProvider time)
    {
        using var ended = new EarlyEnd(report, seconds, time);
        var start = time.GetTimestamp();
        report.Line($"Looking for a job of up to {machine.StoreBytes} bytes, with {Counted.Of(limits.MostCells, "cell")} changed at most.");
        return FitSearch.Find(shape, machine, limits, found => report.Line(FormattableString.Invariant(
            $"{time.GetElapsedTime(start).TotalSeconds,6:0.0} s: {found.Plan.ImageBytes} bytes, {(found.Plan.Fits ? "which fits" : "too many")}: {found.Change}"
            )), ended.Token);
    }
}
