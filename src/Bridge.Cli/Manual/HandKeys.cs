namespace Bridge.Cli;

/// <summary>
/// The keys of a terminal, one after another, and whether one is held. A terminal tells nothing of a key that is let go: one is held for as long as it
/// repeats, and no longer than <see cref="Gap"/> after it did.
/// </summary>
internal sealed class HandKeys(TimeProvider time, Func<ConsoleKeyInfo?> read)
{
    /// <summary>Common keyboards repeat every 25 to 50 ms once they do; slower ones make the motion stutter, which is safe.</summary>
    public static readonly TimeSpan Gap = TimeSpan.FromMilliseconds(120);

    private const int MostForgotten = 4096; // a terminal that is gone has keys without end

    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(10);

    private ConsoleKeyInfo? _next;
    private long _pressed;

    /// <summary>The keys of this program's own terminal.</summary>
    public static HandKeys OfTerminal() => new(TimeProvider.System, ReadTerminal);

    /// <summary>The next key; null where none comes before something else happens, or the terminal is gone.</summary>
    public async Task<ConsoleKeyInfo?> NextAsync(Func<bool> goesOn, Func<TimeSpan, Task> pass)
    {
        while (goesOn())
        {
            if (TakeNext() is { } key)
            {
                _pressed = time.GetTimestamp();
                return key;
            }

            await pass(Interval).ConfigureAwait(false);
        }

        return null;
    }

    /// <summary>Takes a key that has been pressed; false where none has.</summary>
    public bool TryTake() => TakeNext() is not null;

    /// <summary>Drops the keys that wait: what was typed before something was seen is no answer to it, and a key that was held is let go by then.</summary>
    public void Forget()
    {
        for (var keys = 0; keys < MostForgotten && TryTake(); keys++)
        {
        }
    }

    /// <summary>Whether a key that was pressed is still held. Another key ends it, and is the next.</summary>
    public bool IsHeld(ConsoleKey key)
    {
        while (_next is null && read() is { } pressed)
            if (pressed.Key == key)
                _pressed = time.GetTimestamp();
            else
                _next = pressed;
        return _next is null && time.GetElapsedTime(_pressed) < Gap;
    }

    private ConsoleKeyInfo? TakeNext()
    {
        var key = _next ?? read();
        _next = null;
        return key;
    }

    private static ConsoleKeyInfo? ReadTerminal()
    {
        try
        {
            return Console.KeyAvailable ? Console.ReadKey(intercept: true) : null;
        }
        catch (Exception error) when (error is IOException or InvalidOperationException)
        {
            return null; // the terminal is gone; its hang-up has asked for the end
        }
    }
}
