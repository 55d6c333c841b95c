namespace Bridge.History;

/// <summary>How far a count may be off before somebody should look.</summary>
public static class LostLimit
{
    /// <summary>Steps, either way: an endstop closes within a step or two of where it closed before (common practice).</summary>
    public const int Steps = 2;
}
