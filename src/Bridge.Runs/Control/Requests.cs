using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>What operators ask of a run, from any thread, in order; and a token that tells when there is more.</summary>
[SuppressMessage("Design", "CA1001", Justification = "A source of cancellation without a timer has nothing to dispose.")]
internal sealed class Requests
{
    private readonly ConcurrentQueue<MachineCommand> _asked = new();
    private readonly Lock _door = new();
    private CancellationTokenSource _next = new();
    private Action<MachineCommand>? _other;

    /// <summary>Cancelled by the next request. Taken before the requests are, it tells of each that comes after them.</summary>
    public CancellationToken Next => Volatile.Read(ref _next).Token;

    public void Add(MachineCommand command)
    {
        lock (_door)
        {
            if (_other is not null)
            {
                _other(command);
                return;
            }

            _asked.Enqueue(command);
        }

        _ = Interlocked.Exchange(ref _next, new CancellationTokenSource()).CancelAsync(); // who waits goes on in a thread of its own, not in this one
    }

    /// <summary>Gives what was not taken, and all that is added from here on, to another.</summary>
    public void HandOver(Action<MachineCommand> other)
    {
        lock (_door)
        {
            _other = other;
            while (_asked.TryDequeue(out var command))
                other(command);
        }
    }

    /// <summary>Whether a request waits that the machine stand still.</summary>
    public bool HasRest => _asked.Any(command => command is MachineCommand.Hold or MachineCommand.Stop or MachineCommand.Abort);

    public bool TryTake(out MachineCommand command) => _asked.TryDequeue(out command);
}
