namespace Bridge.Runs;

/// <summary>A run before it is gone on with: what its records need to tell of the whole.</summary>
/// <param name="Began">When it began; null where its journal does not tell.</param>
/// <param name="Seconds">Seconds that programs were at it; one that was cut off counts up to its last entry.</param>
/// <param name="JobSeconds">Seconds of them from where the job got under way, in each part that it did; null where in none.</param>
/// <param name="Settled">What was in doubt each time it was gone on with, in order.</param>
public sealed record EarlierParts(DateTimeOffset? Began, double Seconds, double? JobSeconds, IReadOnlyList<SettledDoubt> Settled);
