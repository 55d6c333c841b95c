using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>How far a person lets a shape be changed so that its job fits.</summary>
internal sealed record FitWishes
{
    private const int DefaultShare = 20;

    /// <summary>What may be changed.</summary>
    public FitChanges Allowed { get; init; } = FitChanges.All;

    /// <summary>Cells that may change; null for a twentieth of those that the shape works.</summary>
    public long? MostCells { get; init; }

    /// <summary>A folder for pictures; null for none.</summary>
    public string? Pictures { get; init; }

    /// <summary>The limits for a shape that was read in some way.</summary>
    public FitLimits For(Shape shape, ShapeSource source, ShapeOptions options, bool addSupport) => LimitsOf(shape, source, options) with
    {
        Allowed = Allowed,
        MostCells = MostCells ?? DefaultOf(shape),
        AddSupport = addSupport,
    };

    /// <summary>The same where nothing was wished: what advice is held to.</summary>
    public static FitLimits LimitsOf(Shape shape, ShapeSource source, ShapeOptions options) => new()
    {
        MostCells = DefaultOf(shape),
        AtThreshold = source.HasGreys() ? grey => source.Read(options with { Threshold = grey, Dither = false }) : null,
        Threshold = options.Threshold ?? FitLimits.DefaultThreshold,
    };

    private static long DefaultOf(Shape shape) => (shape.Count(Jobs.Head.A) + shape.Count(Jobs.Head.B) + DefaultShare - 1) / DefaultShare;
}
