namespace Bridge.Motion;

/// <summary>A new value for a machine file's key, and whether there is reason to take it.</summary>
/// <param name="Key">The key, such as axes.x.steps_per_mm.</param>
/// <param name="Before">What the file says.</param>
/// <param name="After">The new value with its uncertainty.</param>
/// <param name="Caution">What to think of first; null where there is nothing.</param>
/// <param name="IsFinding">Whether it is a finding, which replaces the one before however little they differ.</param>
public sealed record Calibrated(string Key, double Before, Measured After, string? Caution = null, bool IsFinding = false)
{
    /// <summary>Whether it differs from what the file says by more than its expanded uncertainty.</summary>
    public bool IsSure => Math.Abs(After.Value - Before) > After.Expanded;
}
