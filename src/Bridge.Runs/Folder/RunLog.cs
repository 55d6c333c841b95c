using Bridge.Wire;
using Serilog;
using Serilog.Core;
using Serilog.Formatting.Compact;

namespace Bridge.Runs;

/// <summary>Writes what a watcher sees to the run's diagnostic log. Diagnostics may fail quietly; the journal may not.</summary>
public sealed class RunLog : IRunWatcher, IDisposable
{
    private readonly Logger _log;
    private readonly IRunWatcher _next;

    /// <summary>Logs to a file and passes on to the next watcher.</summary>
    public RunLog(string path, IRunWatcher next)
    {
        _next = next;
        _log = new LoggerConfiguration().MinimumLevel.Debug()
            .WriteTo.File(new CompactJsonFormatter(), path, fileSizeLimitBytes: 20 * 1024 * 1024).CreateLogger();
    }

    /// <inheritdoc/>
    public void StateChanged(RunProgress progress)
    {
        var level = progress.State == MachineState.Aborted && progress.Cause is not (StateCause.PowerOn or StateCause.None)
            ? Serilog.Events.LogEventLevel.Warning : Serilog.Events.LogEventLevel.Information;
        _log.Write(level, "State {State} because {Cause} at {Seconds} s, record {Records} of {RecordsInAll}, cell {X} {Y} on layer {Layer}",
            progress.State, progress.Cause, progress.Elapsed.TotalSeconds, progress.Records, progress.RecordsInAll, progress.X, progress.Y, progress.Layer);
        Pass(() => _next.StateChanged(progress));
    }

    /// <inheritdoc/>
    public void Progressed(RunProgress progress) => Pass(() => _next.Progressed(progress));

    /// <inheritdoc/>
    public void Told(string words)
    {
        _log.Warning("Told {Words}", words);
        Pass(() => _next.Told(words));
    }

    /// <summary>Logs how the run ended.</summary>
    public void Ended(RunEnd end, RunController run) =>
        _log.Information("Ended {Outcome}: {Words} Retransmissions {Retransmissions}, frames {Good} good, {BadFcs} damaged",
            end.Outcome, end.Words, run.Retransmissions, run.Received.Good, run.Received.BadFcs);

    // A screen that is gone must not end the run.
    private void Pass(Action tell)
    {
        try
        {
            tell();
        }
        catch (IOException error)
        {
            _log.Warning("The watcher cannot be told: {Why}", error.Message);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            _log.Dispose();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // The disk is full: what could not be flushed is lost, and the journal has the run.
        }
    }
}
