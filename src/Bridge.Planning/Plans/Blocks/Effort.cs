namespace Bridge.Planning;

/// <summary>How much work may still be done: counted, not timed, so that the same shape always gives the same job.</summary>
internal sealed class Effort(long steps)
{
    /// <summary>Steps left, each of about a nanosecond; below 0 where the last one was larger than what was left.</summary>
    public long Left { get; private set; } = steps;

    /// <summary>Whether more may be done.</summary>
    public bool IsLeft => Left > 0;

    /// <summary>Counts steps.</summary>
    public void Spend(long steps) => Left -= steps;

}
