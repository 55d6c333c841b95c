using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>
/// What the operator does at the terminal while a run goes on. Ctrl-C stops the machine first and the program after, and so do a request to
/// end and a terminal that is closed. What is asked for before there is a run waits for it.
/// </summary>
internal sealed class OperatorInput : IDisposable
{
    public const string Keys = "Keys: H hold, U unhold (go on), S stop, A abort (motors off). Ctrl-C stops; again aborts.";

    private static readonly TimeSpan KeyInterval = TimeSpan.FromMilliseconds(20);

    private const int MostKeysAtOnce = 8;

    private readonly Report _report;
    private readonly TimeProvider _time;
    private readonly EndRequests _ends;
    private readonly CancellationTokenSource _ended = new();
    private readonly Lock _door = new();
    private readonly Queue<MachineCommand> _early = new();
    private RunController? _run;
    private MachineHand? _hand;
    private TaskCompletionSource<bool>? _question;
    private bool _hearsAnswers; // nothing waits any more that was typed before the question

    /// <summary>From here on Ctrl-C no longer ends the program.</summary>
    public OperatorInput(Report report, TimeProvider time)
    {
        (_report, _time) = (report, time);
        _ends = new EndRequests(Interrupt, () => Ask(MachineCommand.Stop, "Told to end: asked the machine to stop first."));
    }

    /// <summary>Whose machine is operated.</summary>
    public void Operate(RunController run)
    {
        lock (_door)
        {
            _run = run;
            while (_early.TryDequeue(out var command))
                run.Request(command);
        }

        if (_report.IsAttended)
            _ = ReadKeysAsync();
    }

    /// <summary>From here on what the operator asks for is asked of a hand, which stops.</summary>
    public void Operate(MachineHand hand)
    {
        lock (_door)
            _hand = hand;
    }

    /// <summary>
    /// Asks a question that the key Y alone answers with yes; any other key, a request to stop, and time that is over answer it with no. A key that was
    /// typed before the question was seen answers nothing.
    /// </summary>
    /// <param name="question">The question, with its keys.</param>
    /// <param name="patience">How long it is waited for.</param>
    public async Task<bool> IsYesAsync(string question, TimeSpan patience)
    {
        var answer = new TaskCompletionSource<bool>(TaskCreationOptions.RunContinuationsAsynchronously);
        lock (_door)
            (_question, _hearsAnswers) = (answer, false);
        _report.Line(question);
        await Task.WhenAny(answer.Task, Task.Delay(patience, _time)).ConfigureAwait(false);
        lock (_door)
            _question = null;
        return answer.Task is { IsCompletedSuccessfully: true, Result: true };
    }

    /// <summary>Asks for what another than the terminal wants, such as the operator's station. May be called from any thread.</summary>
    public void Request(MachineCommand command)
    {
        lock (_door)
            if (_question is not null && command != MachineCommand.Abort)
                _question.TrySetResult(false);
            else if (_hand is not null)
                _hand.Rest(command);
            else if (_run is { } run)
            {
                _question?.TrySetResult(false);
                run.Request(command); // also when it has ended: STOP goes out all the same
            }
            else
                _early.Enqueue(command);
    }

    public void Dispose()
    {
        _ends.Dispose();
        _ended.Cancel();
        _ended.Dispose();
    }

    // The machine is asked before anything is said: a terminal may be gone.
    private void Ask(MachineCommand command, string said)
    {
        Request(command);
        _report.Line(said);
    }

    private void Interrupt(int times)
    {
        if (times == 1)
            Ask(MachineCommand.Stop, "Asked the machine to stop; Ctrl-C again asks it to stop at once, motors off.");
        else
            Ask(MachineCommand.Abort, "Asked the machine to stop at once, motors off.");
    }

    private async Task ReadKeysAsync()
    {
        var ended = _ended.Token;
        while (!ended.IsCancellationRequested && TryReadKeys())
            await Task.Delay(KeyInterval, _time, ended).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    private bool TryReadKeys()
    {
        try
        {
            for (var keys = 0; keys < MostKeysAtOnce && Console.KeyAvailable; keys++) // a terminal that is gone has keys without end
                Press(Console.ReadKey(intercept: true).Key);
            lock (_door)
                _hearsAnswers |= _question is not null && !Console.KeyAvailable;
            return true;
        }
        catch (Exception error) when (error is IOException or InvalidOperationException)
        {
            return false; // the terminal is gone; its hang-up has asked for the stop
        }
    }

    private void Press(ConsoleKey key)
    {
        lock (_door)
            if (_question is not null)
            {
                if (_hearsAnswers)
                    _question.TrySetResult(key == ConsoleKey.Y);
                return;
            }

        MachineCommand? command = key switch
        {
            ConsoleKey.H => MachineCommand.Hold,
            ConsoleKey.U => MachineCommand.Unhold,
            ConsoleKey.S => MachineCommand.Stop,
            ConsoleKey.A => MachineCommand.Abort,
            _ => null,
        };
        if (command is { } asked)
            Request(asked);
    }
}
