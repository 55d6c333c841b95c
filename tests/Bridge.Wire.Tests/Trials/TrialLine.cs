namespace Bridge.Wire.Tests;

/// <summary>One way of a simulated line at 500 000 baud: what is put on it leaves octet after octet, and arrives in order and late.</summary>
/// <param name="delay">From the end of a frame's last octet to its arrival.</param>
/// <param name="errors">The chance that a frame is damaged.</param>
/// <param name="random">Which are.</param>
internal sealed class TrialLine<T>(TimeSpan delay, double errors, Random random)
{
    /// <summary>Ten bits.</summary>
    public static readonly TimeSpan Octet = TimeSpan.FromMicroseconds(20);

    private readonly Queue<TrialFrame<T>> _onTheWay = new();

    /// <summary>When the last octet that has been put on it will have left.</summary>
    public TimeSpan Free { get; private set; }

    /// <summary>When the next frame will have arrived; null if none is on its way.</summary>
    public TimeSpan? Next => _onTheWay.TryPeek(out var first) ? first.At : null;

    /// <param name="content">What the frame says.</param>
    /// <param name="length">Its octets.</param>
    /// <param name="now">The time.</param>
    /// <param name="octet">From one octet to the next, where the sender does not keep up with the line.</param>
    public void Put(T content, int length, TimeSpan now, TimeSpan? octet = null)
    {
        Free = (Free > now ? Free : now) + (octet ?? Octet) * length;
        _onTheWay.Enqueue(new TrialFrame<T>(Free + delay, length, content, random.NextDouble() < errors));
    }

    public bool TryTake(TimeSpan now, out TrialFrame<T> frame)
    {
        if (!_onTheWay.TryPeek(out frame) || frame.At > now)
            return false;
        _onTheWay.Dequeue();
        return true;
    }
}
