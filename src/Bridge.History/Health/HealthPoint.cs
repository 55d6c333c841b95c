using Bridge.Motion;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.History;

/// <summary>What one run tells of its machine's health.</summary>
/// <param name="Run">The run's name.</param>
/// <param name="Lost">How far each axis was off when it referenced again, after the run and at changes of layer together; none where it did not.</param>
/// <param name="ReferenceSeconds">How long that took after the run; null where it did not.</param>
/// <param name="WorkSeconds">Seconds at work.</param>
/// <param name="TravelMm">The way of the carriage, in mm, by what was done; null where the job is not known.</param>
public sealed record HealthPoint(string Run, IReadOnlyList<LostSteps> Lost, double? ReferenceSeconds, double WorkSeconds, double? TravelMm)
{
    /// <summary>Of a run.</summary>
    public static HealthPoint Of(PastRun run)
    {
        var references = References.Of(run);
        return new HealthPoint(run.Name, References.Sum(references), references.LastOrDefault(entry => entry.Layer is null)?.Took,
            StateSpan.Of(run).Where(span => span.State is MachineState.Execute or MachineState.Completing).Sum(span => span.Seconds), TravelOf(run));
    }

    private static double? TravelOf(PastRun run)
    {
        if (run.Job is not { } job)
            return null;
        var replay = new Replay(run, followsCells: false);
        replay.GoTo(double.MaxValue);
        var passes = new ActingReader(job.Job.Image, job.Machine);
        var travel = 0.0;
        for (var record = 0L; record < replay.Place.Records && passes.TryNext(out _, out var acts); record++)
            foreach (var act in acts)
                travel += act.TravelMm;
        return travel;
    }
}
