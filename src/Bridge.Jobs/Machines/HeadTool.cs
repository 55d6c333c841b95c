namespace Bridge.Jobs;

/// <summary>What a head carries, and where.</summary>
/// <param name="OffsetXMm">Where the head stands from the carriage's own place along X, -1000 to 1000 mm.</param>
/// <param name="OffsetYMm">Where the head stands from the carriage's own place along Y, -1000 to 1000 mm.</param>
public abstract record HeadTool(double OffsetXMm, double OffsetYMm)
{
    /// <summary>Stops at each cell and deposits a dot there.</summary>
    /// <param name="PerCell">Time at each cell, 0 to 60 s.</param>
    /// <param name="OffsetXMm">Offset along X, -1000 to 1000 mm.</param>
    /// <param name="OffsetYMm">Offset along Y, -1000 to 1000 mm.</param>
    public sealed record Dot(TimeSpan PerCell, double OffsetXMm, double OffsetYMm) : HeadTool(OffsetXMm, OffsetYMm);

    /// <summary>Is lowered and passes over cells.</summary>
    /// <param name="Lower">Time to lower it, 0 to 60 s.</param>
    /// <param name="Lift">Time to lift it, 0 to 60 s.</param>
    /// <param name="OffsetXMm">Offset along X, -1000 to 1000 mm.</param>
    /// <param name="OffsetYMm">Offset along Y, -1000 to 1000 mm.</param>
    public sealed record Pen(TimeSpan Lower, TimeSpan Lift, double OffsetXMm, double OffsetYMm) : HeadTool(OffsetXMm, OffsetYMm);
}
