using System.Runtime.InteropServices;
using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>Planning that a person can end: Ctrl-C, or the time that was given, takes the best plan so far.</summary>
internal static class TimedPlan
{
    public static Plan Of(Report report, Shape shape, Machine machine, int? seconds, TimeProvider time)
    {
        using var ended = seconds is { } given
            ? new CancellationTokenSource(TimeSpan.FromSeconds(given), time)
            : new CancellationTokenSource();
        using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, told =>
        {
            told.Cancel = true;
            ended.Cancel();
            report.Problem("Ended early: the best plan so far is taken.");
        });
        if (seconds is null)
            return Planner.Plan(shape, machine, ended: ended.Token);
        var start = time.GetTimestamp();
        return LongPlanning.Plan(shape, machine, plan => report.Line(FormattableString.Invariant(
            $"{time.GetElapsedTime(start).TotalSeconds,6:0.0} s: {plan.Records.Count} records, at most {plan.Gap} above the fewest")), ended.Token);
    }
}
