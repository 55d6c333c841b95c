namespace Bridge.Serial;

/// <summary>Wakes whoever waits for a change. Take <see cref="Next"/> first, look at what may have changed, then await it: nothing is missed.</summary>
internal sealed class Signal
{
    private TaskCompletionSource next = New();

    /// <summary>Completes at the next <see cref="Raise"/>.</summary>
    public Task Next => Volatile.Read(ref next).Task;

    /// <summary>Wakes those who wait now.</summary>
    public void Raise() => Interlocked.Exchange(ref next, New()).SetResult();

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
