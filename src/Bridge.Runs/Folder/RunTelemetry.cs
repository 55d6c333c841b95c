using System.Diagnostics;
using System.Diagnostics.Metrics;

namespace Bridge.Runs;

/// <summary>
/// Tells a run to whoever collects traces and metrics, and passes on to the next watcher: a span for the run with one for each state, counters of
/// records and cells, and the link's figures at the end. Where nobody collects it costs nothing.
/// </summary>
/// <param name="machine">The machine's name.</param>
/// <param name="device">What executes the run.</param>
/// <param name="began">The date and time at which the run's clock begins.</param>
/// <param name="next">The next watcher.</param>
public sealed class RunTelemetry(string machine, string device, DateTimeOffset began, IRunWatcher next) : IRunWatcher
{
    /// <summary>The name of the source of spans and of the meter.</summary>
    public const string Name = "Bridge";

    private static readonly ActivitySource Source = new(Name);
    private static readonly Meter Meter = new(Name);
    private static readonly Counter<long> Records = Meter.CreateCounter<long>("bridge.run.records", "{record}", "Records executed, each repeat counted.");
    private static readonly Counter<long> Cells = Meter.CreateCounter<long>("bridge.run.cells", "{cell}", "Cells worked, both heads.");
    private static readonly Histogram<double> Duration = Meter.CreateHistogram<double>("bridge.run.duration", "s", "How long runs took, on their own clock.");
    private static readonly Counter<long> Repeated = Meter.CreateCounter<long>("bridge.link.retransmissions", "{frame}", "Frames sent again.");
    private static readonly Histogram<double> RoundTrip = Meter.CreateHistogram<double>("bridge.link.round_trip", "s", "The mean round trip of each run.");

    private readonly KeyValuePair<string, object?>[] _tags = [new("bridge.machine", machine), new("bridge.device", device)];
    private readonly Activity? _run = Source.StartActivity("run", ActivityKind.Internal, default(ActivityContext),
        [new("bridge.machine", machine), new("bridge.device", device)], startTime: began);

    private Activity? _state;
    private long _records;
    private long _cells;

    /// <inheritdoc/>
    public void StateChanged(RunProgress progress)
    {
        Count(progress);
        EndState(progress.Elapsed);
        if (_run is not null)
            _state = Source.StartActivity(progress.State.ToString(), ActivityKind.Internal, _run.Context,
                [new("bridge.cause", progress.Cause.ToString()), new("bridge.records", progress.Records)], startTime: began + progress.Elapsed);
        next.StateChanged(progress);
    }

    /// <inheritdoc/>
    public void Progressed(RunProgress progress)
    {
        Count(progress);
        next.Progressed(progress);
    }

    /// <inheritdoc/>
    public void Told(string words) => next.Told(words);

    /// <summary>The run is over.</summary>
    /// <param name="summary">The whole of it.</param>
    /// <param name="took">How long this program was at it.</param>
    public void Ended(RunSummary summary, TimeSpan took)
    {
        EndState(took);
        _run?.SetTag("bridge.outcome", summary.Outcome.ToString());
        _run?.SetStatus(summary.Outcome == RunOutcome.Complete ? ActivityStatusCode.Ok : ActivityStatusCode.Error, summary.Words);
        End(_run, took);
        Duration.Record(took.TotalSeconds, [.. _tags, new("bridge.outcome", summary.Outcome.ToString())]);
        Repeated.Add(summary.Retransmissions, _tags);
        if (summary.RoundTripMs is { } ms)
            RoundTrip.Record(ms.Mean / 1000, _tags);
    }

    private void Count(RunProgress progress)
    {
        Records.Add(Math.Max(0, progress.Records - _records), _tags);
        Cells.Add(Math.Max(0, progress.Cells - _cells), _tags);
        (_records, _cells) = (Math.Max(_records, progress.Records), Math.Max(_cells, progress.Cells));
    }

    private void EndState(TimeSpan at)
    {
        End(_state, at);
        _state = null;
    }

    private void End(Activity? span, TimeSpan at)
    {
        span?.SetEndTime((began + at).UtcDateTime);
        span?.Stop();
    }
}
