namespace Bridge.Wire;

/// <summary>The round trips that a link has measured, all sessions together; none where either of two copies may have been answered.</summary>
/// <param name="Count">How many.</param>
/// <param name="Sum">All of them together.</param>
/// <param name="Least">The shortest; zero where there is none.</param>
/// <param name="Most">The longest; zero where there is none.</param>
public readonly record struct RoundTrips(long Count, TimeSpan Sum, TimeSpan Least, TimeSpan Most)
{
    /// <summary>The mean; zero where there is none.</summary>
    public TimeSpan Mean => Count == 0 ? TimeSpan.Zero : Sum / Count;

    /// <summary>With one more.</summary>
    public RoundTrips With(TimeSpan one) => Count == 0
        ? new RoundTrips(1, one, one, one)
        : new RoundTrips(Count + 1, Sum + one, one < Least ? one : Least, one > Most ? one : Most);
}
