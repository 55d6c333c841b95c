using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>
/// The lines of a whole run on the mock device, from its switching on: it looks for its zero, executes the records, and meets the faults that it is given.
/// Contacts are looked at whenever something happens, every 50 ms at least while it moves.
/// </summary>
public sealed class MockTrace
{
    private static readonly AxisName[] Axes = Enum.GetValues<AxisName>();

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly ProvedJob _job;
    private readonly SignalTrace _trace;
    private readonly PassCounter _passes;
    private readonly long _mostPasses;
    private bool _isOver;

    private MockTrace(ProvedJob job, SignalTrace trace, long mostPasses)
    {
        (_job, _trace, _mostPasses) = (job, trace, mostPasses);
        _passes = new PassCounter(job.Job.Image, job.Machine.Grid);
    }

    /// <summary>Runs a job and writes its trace.</summary>
    /// <param name="job">The job.</param>
    /// <param name="faults">What goes wrong.</param>
    /// <param name="seed">Decides all that is left to chance.</param>
    /// <param name="mostPasses">After how many executed records the trace ends, repeats counted.</param>
    /// <param name="stream">Where it goes; it stays open.</param>
    /// <returns>How the run ended.</returns>
    /// <exception cref="RefusedException">More steps than a trace holds, or faster ones.</exception>
    public static RunEnd Write(ProvedJob job, MockFaults faults, int seed, long mostPasses, Stream stream)
    {
        using var vcd = new VcdWriter(stream, "from a run on the mock device", TraceLines.Of(job.Machine, withMotion: true));
        using var trace = new SignalTrace(vcd, job.Machine, new Place(1, 1, 1)); // the device counts in steps
        var traced = new MockTrace(job, trace, mostPasses);
        var time = new VirtualTime();
        using var port = MockPort.Of(job.Machine, time, seed, faults);
        port.ByHand(traced.Watch);
        var settings = new RunSettings { RunId = 1, Token = 1, Device = "mock", GoesOnAtWaits = true, HeldPatience = Patience };
        var run = new RunController(job, settings, new NoJournal(), new NoWatcher());
        using var line = port.Open();
        var running = RunLoop.RunAsync(run, line, time);
        Debug.Assert(running.IsCompleted, "In virtual time nothing is waited for.");
        return running.GetAwaiter().GetResult();
    }

    private void Watch(MockDevice device)
    {
        device.ActChanged += (act, began, now) =>
        {
            if (!_isOver)
                _trace.Begin(act, began, now);
        };
        device.WentOn += now => Look(device, now);
    }

    private void Look(MockDevice device, TimeSpan now)
    {
        if (_isOver)
            return;
        _trace.AdvanceTo(now.TotalSeconds);
        var status = device.Status;
        _trace.Set(TraceSignal.State, (int)status.State);
        _trace.Set(TraceSignal.EStop, device.Gantry.EStopIsOpen ? 1 : 0);
        foreach (var axis in Axes)
            _trace.Set(TraceSignal.EndX + (int)axis, device.Gantry.Axis(axis) is { IsClosed: true } ? 1 : 0);
        _trace.Set(TraceSignal.Work, status.Working ? 1 : 0);
        _trace.Set(TraceSignal.Head, status.Head);
        _trace.Set(TraceSignal.X, status.X);
        _trace.Set(TraceSignal.Y, status.Y);
        _trace.Set(TraceSignal.Layer, status.Layer);
        if (status.RunId == 0)
            return;
        var (index, cells) = _passes.Of(status.RecordsDone);
        _trace.Set(TraceSignal.Record, Math.Min(index, _job.Job.Image.Count - 1));
        _trace.Set(TraceSignal.Counter, Math.Max(0, cells - status.CellsDone));
        _isOver = status.RecordsDone >= _mostPasses;
    }

    // A run that leaves nothing but its trace.
    private sealed class NoJournal : IJournal
    {
        public bool TryAppend(JournalEntry entry, out string why)
        {
            why = "";
            return true;
        }
    }

    private sealed class NoWatcher : IRunWatcher
    {
        public void StateChanged(RunProgress progress)
        {
        }

        public void Progressed(RunProgress progress)
        {
        }

        public void Told(string words)
        {
        }
    }
}
