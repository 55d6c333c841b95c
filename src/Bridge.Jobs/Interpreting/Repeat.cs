namespace Bridge.Jobs;

/// <summary>The repeat memory: what an `again` has the machine do once more.</summary>
/// <param name="First">The first record that is repeated.</param>
/// <param name="Again">The `again` itself; the record before it is the last that is repeated.</param>
/// <param name="RoundsLeft">How many rounds follow the present one, 0 and up.</param>
public readonly record struct Repeat(int First, int Again, int RoundsLeft);
