using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>How far a person lets a shape be changed so that its job fits.</summary>
internal sealed record FitWishes
{
    /// <summary>What may be changed.</summary>
    public FitChanges Allowed { get; init; } = FitChanges.All;

    /// <summary>Cells that may change; null for a twentieth of those that the shape works.</summary>
    public long? MostCells { get; init; }

    /// <summary>A folder for pictures; null for none.</summary>
    public string? Pictures { get; init; }

    /// <summary>The limits for a shape that was read in some way.</summary>
    public FitLimits For(Shape shape, ShapeSource source, ShapeOptions options, bool addSupport)
    {
        var limits = FitLimits.Of(shape, source, options);
        return limits with { Allowed = Allowed, MostCells = MostCells ?? limits.MostCells, AddSupport = addSupport };
    }
}
