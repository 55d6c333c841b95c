using System.Runtime.InteropServices;

namespace Bridge.Cli;

/// <summary>Ends long work early, with the best so far: by Ctrl-C, or after a time that was given.</summary>
internal sealed class EarlyEnd : IDisposable
{
    private readonly CancellationTokenSource _ended;
    private readonly PosixSignalRegistration _interrupt;

    /// <summary>Starts to wait for either.</summary>
    public EarlyEnd(Report report, int? seconds, TimeProvider time)
    {
        _ended = seconds is { } given ? new CancellationTokenSource(TimeSpan.FromSeconds(given), time) : new CancellationTokenSource();
        _interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, told =>
        {
            told.Cancel = true;
            _ended.Cancel();
            report.Problem("Ended early: the best plan so far is taken.");
        });
    }

    /// <summary>Is cancelled then.</summary>
    public CancellationToken Token => _ended.Token;

    public void Dispose()
    {
        _interrupt.Dispose();
        _ended.Dispose();
    }
}
