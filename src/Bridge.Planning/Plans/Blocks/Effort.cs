namespace Bridge.Planning;

/// <summary>How much work may still be done: counted, not timed, so that the same shape always gives the same job.</summary>
/// <param name="steps">How much.</param>
/// <param name="ended">Ends it early: what was found so far is then taken.</param>
internal sealed class Effort(long steps, CancellationToken ended = default)
{
    /// <summary>Steps left, each of about a nanosecond; below 0 where the last one was larger than what was left.</summary>
    public long Left { get; private set; } = steps;

    /// <summary>Whether more may be done.</summary>
    public bool IsLeft => Left > 0 && !ended.IsCancellationRequested;

    /// <summary>Counts steps.</summary>
    public void Spend(long steps) => Left -= steps;
}
