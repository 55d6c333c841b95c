using Bridge.Motion;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.History;

/// <summary>
/// How long each record of a run took, each repeat counted, beside how long it was predicted to take. The journal tells every 0.2 s how far the run is;
/// between two such points the time is shared out as predicted. What the machine was held for counts as no time.
/// </summary>
public sealed class JobTimes
{
    private readonly double[] _predicted; // up to the end of each pass
    private readonly double[] _measured;
    private readonly int[] _layers;

    private JobTimes(double[] predicted, double[] measured, int[] layers, int done) =>
        (_predicted, _measured, _layers, Done) = (predicted, measured, layers, done);

    /// <summary>How coarse a measured time is, in seconds: the journal's interval.</summary>
    public const double ResolutionSeconds = 0.2;

    /// <summary>The most records that are timed: one million.</summary>
    public const int MostRecords = Countdown.MostPasses;

    /// <summary>Records of the job, each repeat counted, the end not.</summary>
    public int Records => _layers.Length;

    /// <summary>Records that were done whole.</summary>
    public int Done { get; }

    /// <summary>Seconds predicted for the records that were done.</summary>
    public double PredictedSeconds => UpTo(_predicted, Done);

    /// <summary>Seconds measured for the records that were done.</summary>
    public double MeasuredSeconds => UpTo(_measured, Done);

    /// <summary>The layer of a record.</summary>
    public int LayerOf(int record) => _layers[record];

    /// <summary>Seconds predicted for some records from one on.</summary>
    public double Predicted(int first, int count = 1) => UpTo(_predicted, first + count) - UpTo(_predicted, first);

    /// <summary>Seconds measured for some records from one on; all of them were done.</summary>
    public double Measured(int first, int count = 1) => UpTo(_measured, first + count) - UpTo(_measured, first);

    /// <summary>Measures a run; null where its job cannot be timed, for it has more than a million records.</summary>
    public static JobTimes? Of(PastRun run)
    {
        if (run.Job is not { } job || PredictedOf(job) is not var (predicted, layers, cells))
            return null;
        var points = PointsOf(run, place => PredictedAt(predicted, cells, place));
        var measured = new double[predicted.Length];
        var (at, done) = (0, 0);
        for (var record = 0; record < predicted.Length; record++)
        {
            while (at < points.Count && points[at].Predicted < predicted[record])
                at++;
            if (at == points.Count)
                break;
            measured[record] = Between(at == 0 ? default : points[at - 1], points[at], predicted[record]);
            done = record + 1;
        }

        return new JobTimes(predicted, measured, layers, done);
    }

    private static double Between((double Predicted, double Measured) before, (double Predicted, double Measured) after, double predicted)
    {
        var share = after.Predicted > before.Predicted ? (predicted - before.Predicted) / (after.Predicted - before.Predicted) : 1;
        return before.Measured + share * (after.Measured - before.Measured);
    }

    // How far the job was, in predicted seconds, and how long it had been at work by then; both only grow.
    private static List<(double Predicted, double Measured)> PointsOf(PastRun run, Func<JobPlace, double> predictedAt)
    {
        var points = new List<(double Predicted, double Measured)>();
        var replay = new Replay(run, followsCells: false);
        var (atWork, clock, known) = (0.0, 0.0, 0.0);
        var isAtWork = false;
        while (replay.TryNext())
        {
            if (isAtWork)
                atWork += replay.Seconds - clock;
            (clock, isAtWork) = (replay.Seconds,
                IsAtWork(replay.State) && replay.Entry.Kind is not (JournalKind.End or JournalKind.TakeUp or JournalKind.Restart));
            var reached = predictedAt(replay.Place);
            if (reached <= known)
                continue;
            known = reached;
            points.Add((known, atWork));
        }

        return points;
    }

    private static bool IsAtWork(MachineState state) => state is MachineState.Starting or MachineState.Execute or MachineState.Completing
        or MachineState.Holding or MachineState.Unholding or MachineState.Suspending or MachineState.Suspended or MachineState.Unsuspending;

    private static double PredictedAt(double[] predicted, long[] cells, JobPlace place)
    {
        if (place.Records >= predicted.Length)
            return UpTo(predicted, predicted.Length);
        var (record, before) = ((int)place.Records, UpTo(predicted, (int)place.Records));
        var share = cells[record] == 0 ? 0 : Math.Min(1.0, (double)place.Cells / cells[record]);
        return before + share * (predicted[record] - before);
    }

    private static (double[] UpTo, int[] Layers, long[] Cells)? PredictedOf(ProvedJob job)
    {
        if (job.Proof.Passes > MostRecords)
            return null;
        var (upTo, layers, cells) = (new List<double>(), new List<int>(), new List<long>());
        var passes = new ActingReader(job.Job.Image, job.Machine);
        var now = 0.0;
        while (passes.TryNext(out var pass, out var acts))
        {
            foreach (var act in acts)
                now += act.Seconds;
            upTo.Add(now);
            layers.Add(pass.Entry.Layer);
            cells.Add(pass.Work.Cells);
        }

        foreach (var act in passes.AtEnd())
            now += act.Seconds;
        if (upTo.Count > 0)
            upTo[^1] = now;
        return ([.. upTo], [.. layers], [.. cells]);
    }

    private static double UpTo(double[] ends, int records) => records == 0 ? 0 : ends[records - 1];
}
