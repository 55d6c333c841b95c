using System.Runtime.InteropServices;

namespace Bridge.Cli;

/// <summary>
/// Ctrl-C, a request to end and a terminal that is closed, for as long as this lives: they no longer end the program but ask for a stop first.
/// </summary>
internal sealed class EndRequests : IDisposable
{
    private readonly Action<int> _interrupted;
    private readonly PosixSignalRegistration[] _signals;
    private int _interrupts;

    /// <param name="interrupted">Ctrl-C was pressed, for the time that is given, from 1.</param>
    /// <param name="told">The program was told to end, or its terminal is gone.</param>
    public EndRequests(Action<int> interrupted, Action told)
    {
        _interrupted = interrupted;
        Console.CancelKeyPress += Interrupt;
        _signals = [PosixSignalRegistration.Create(PosixSignal.SIGTERM, End), PosixSignalRegistration.Create(PosixSignal.SIGHUP, End)];

        void End(PosixSignalContext context)
        {
            context.Cancel = true;
            told();
        }
    }

    public void Dispose()
    {
        Console.CancelKeyPress -= Interrupt;
        foreach (var signal in _signals)
            signal.Dispose();
    }

    private void Interrupt(object? sender, ConsoleCancelEventArgs pressed)
    {
        pressed.Cancel = true;
        _interrupted(Interlocked.Increment(ref _interrupts));
    }
}
