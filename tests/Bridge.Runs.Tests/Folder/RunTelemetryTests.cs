using System.Diagnostics;
using System.Diagnostics.Metrics;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>A run as whoever collects traces and metrics sees it. The machine has a name of its own, since collectors hear of every run.</summary>
public sealed class RunTelemetryTests : IDisposable
{
    private const string MachineName = "a machine under watch";

    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    private readonly List<Activity> _spans = [];
    private readonly List<(string Name, double Value, string? Outcome, string? Device)> _measured = [];
    private readonly ActivityListener _traces;
    private readonly MeterListener _meters = new();

    public RunTelemetryTests()
    {
        _traces = new ActivityListener
        {
            ShouldListenTo = source => source.Name == RunTelemetry.Name,
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllDataAndRecorded,
            ActivityStopped = span =>
            {
                lock (_spans)
                    _spans.Add(span);
            },
        };
        ActivitySource.AddActivityListener(_traces);
        _meters.InstrumentPublished = (instrument, listener) =>
        {
            if (instrument.Meter.Name == RunTelemetry.Name)
                listener.EnableMeasurementEvents(instrument);
        };
        _meters.SetMeasurementEventCallback<long>((instrument, value, tags, _) => Measured(instrument, value, tags));
        _meters.SetMeasurementEventCallback<double>((instrument, value, tags, _) => Measured(instrument, value, tags));
        _meters.Start();
    }

    [Fact]
    public void A_run_is_a_span_with_one_for_each_state_on_the_runs_own_clock()
    {
        Run(RunSummaryTests.Plain with { Machine = MachineName, Outcome = RunOutcome.Complete, Seconds = 9, Words = "done" });
        var run = OwnRun();
        Assert.Equal(("run", Noon.UtcDateTime, TimeSpan.FromSeconds(9), ActivityStatusCode.Ok),
            (run.OperationName, run.StartTimeUtc, run.Duration, run.Status));
        Assert.Equal(("mock", "Complete"), (run.GetTagItem("bridge.device"), run.GetTagItem("bridge.outcome")));
        var states = Children(run);
        Assert.Equal(["Execute", "Complete"], states.Select(state => state.OperationName));
        Assert.Equal([Noon.UtcDateTime.AddSeconds(1), Noon.UtcDateTime.AddSeconds(5)], states.Select(state => state.StartTimeUtc));
        Assert.Equal([4.0, 4.0], states.Select(state => state.Duration.TotalSeconds));
        Assert.Equal(["Operator", "JobComplete"], states.Select(state => state.GetTagItem("bridge.cause")));
        Assert.Equal([1L, 4L], states.Select(state => state.GetTagItem("bridge.records")));
    }

    [Fact]
    public void A_run_that_is_not_complete_is_an_error_with_its_words()
    {
        Run(RunSummaryTests.Plain with { Machine = MachineName });
        Assert.Equal((ActivityStatusCode.Error, "It held.", "HeldTooLong"),
            (OwnRun().Status, OwnRun().StatusDescription, OwnRun().GetTagItem("bridge.outcome")));
    }

    [Fact]
    public void Records_and_cells_are_counted_once_though_a_count_falls_back_and_the_links_figures_come_at_the_end()
    {
        Run(RunSummaryTests.Plain with { Machine = MachineName, RoundTripMs = new RoundTripMs(1, 2, 3) });
        Assert.Equal([1, 2, 0, 1], Values("bridge.run.records"));
        Assert.Equal([2, 7, 0, 0], Values("bridge.run.cells"));
        Assert.Equal([12.5, 2, 0.002], [.. Values("bridge.run.duration"), .. Values("bridge.link.retransmissions"), .. Values("bridge.link.round_trip")]);
        Assert.Equal("HeldTooLong", _measured.Single(each => each.Name == "bridge.run.duration").Outcome);
        Assert.All(_measured, each => Assert.Equal("mock", each.Device));
    }

    [Fact]
    public void Without_a_round_trip_none_is_told_and_every_watcher_behind_it_still_sees_the_run()
    {
        var seen = Run(RunSummaryTests.Plain with { Machine = MachineName });
        Assert.DoesNotContain(_measured, each => each.Name == "bridge.link.round_trip");
        Assert.Equal((2, 2), (seen.States.Count, seen.Progress.Count));
        Assert.Equal(["the machine holds"], seen.Words);
    }

    [Fact]
    public void Every_measure_has_its_unit()
    {
        var units = new Dictionary<string, string?>();
        using var meters = new MeterListener
        {
            InstrumentPublished = (instrument, _) =>
            {
                if (instrument.Meter.Name == RunTelemetry.Name)
                    units[instrument.Name] = instrument.Unit;
            },
        };
        Run(RunSummaryTests.Plain with { Machine = MachineName });
        meters.Start();
        Assert.Equal(new Dictionary<string, string?>
        {
            ["bridge.run.records"] = "{record}", ["bridge.run.cells"] = "{cell}", ["bridge.run.duration"] = "s",
            ["bridge.link.retransmissions"] = "{frame}", ["bridge.link.round_trip"] = "s",
        }, units);
    }

    public void Dispose()
    {
        _traces.Dispose();
        _meters.Dispose();
    }

    private static Onlooker Run(RunSummary summary)
    {
        var onlooker = new Onlooker();
        var telemetry = new RunTelemetry(MachineName, "mock", Noon, onlooker);
        telemetry.StateChanged(Progress(MachineState.Execute, StateCause.Operator, 1, 2, 1));
        telemetry.Progressed(Progress(MachineState.Execute, StateCause.Operator, 3, 9, 2));
        telemetry.Progressed(Progress(MachineState.Execute, StateCause.Operator, 2, 8, 3));
        telemetry.Told("the machine holds");
        telemetry.StateChanged(Progress(MachineState.Complete, StateCause.JobComplete, 4, 9, 5));
        telemetry.Ended(summary, TimeSpan.FromSeconds(summary.Seconds));
        return onlooker;
    }

    private static RunProgress Progress(MachineState state, StateCause cause, long records, long cells, double seconds) =>
        new(state, cause, records, 11, cells, 0, 0, 0, TimeSpan.FromSeconds(seconds));

    private Activity OwnRun()
    {
        lock (_spans)
            return _spans.Single(span => Equals(span.GetTagItem("bridge.machine"), MachineName));
    }

    private List<Activity> Children(Activity run)
    {
        lock (_spans)
            return [.. _spans.Where(span => span.ParentSpanId == run.SpanId)];
    }

    private IEnumerable<double> Values(string name) => _measured.Where(each => each.Name == name).Select(each => each.Value);

    private void Measured(Instrument instrument, double value, ReadOnlySpan<KeyValuePair<string, object?>> tags)
    {
        var all = tags.ToArray().ToDictionary();
        if (Equals(all.GetValueOrDefault("bridge.machine"), MachineName))
            _measured.Add((instrument.Name, value, all.GetValueOrDefault("bridge.outcome") as string, all.GetValueOrDefault("bridge.device") as string));
    }
}
