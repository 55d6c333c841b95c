using System.Runtime.InteropServices;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>What the operator does at the terminal while a run goes on. Ctrl-C stops the machine first and the program after.</summary>
internal sealed class OperatorInput : IDisposable
{
    public const string Keys = "Keys: H hold, U unhold (go on), S stop, A abort (motors off). Ctrl-C stops; again aborts.";

    private static readonly TimeSpan KeyInterval = TimeSpan.FromMilliseconds(20);

    private readonly RunController _run;
    private readonly Report _report;
    private readonly PosixSignalRegistration _terminate;
    private readonly CancellationTokenSource _ended = new();
    private int _interrupts;

    public OperatorInput(RunController run, Report report, TimeProvider time)
    {
        (_run, _report) = (run, report);
        Console.CancelKeyPress += Interrupt;
        _terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, context =>
        {
            context.Cancel = true;
            _report.Line("Told to end: stopping the machine first.");
            _run.Request(MachineCommand.Stop);
        });
        if (report.IsAttended)
            _ = ReadKeysAsync(time);
    }

    public void Dispose()
    {
        Console.CancelKeyPress -= Interrupt;
        _terminate.Dispose();
        _ended.Cancel();
        _ended.Dispose();
    }

    private void Interrupt(object? sender, ConsoleCancelEventArgs pressed)
    {
        pressed.Cancel = true;
        var first = Interlocked.Increment(ref _interrupts) == 1;
        _report.Line(first ? "Stopping the machine; Ctrl-C again switches the motors off." : "Stopping at once, motors off.");
        _run.Request(first ? MachineCommand.Stop : MachineCommand.Abort);
    }

    private async Task ReadKeysAsync(TimeProvider time)
    {
        var ended = _ended.Token;
        while (!ended.IsCancellationRequested)
        {
            while (Console.KeyAvailable)
                Press(Console.ReadKey(intercept: true).Key);
            await Task.Delay(KeyInterval, time, ended).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private void Press(ConsoleKey key)
    {
        MachineCommand? command = key switch
        {
            ConsoleKey.H => MachineCommand.Hold,
            ConsoleKey.U => MachineCommand.Unhold,
            ConsoleKey.S => MachineCommand.Stop,
            ConsoleKey.A => MachineCommand.Abort,
            _ => null,
        };
        if (command is { } asked)
            _run.Request(asked);
    }
}
