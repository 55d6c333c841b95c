using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>How far a shape may be changed so that its job fits.</summary>
public sealed record FitLimits
{
    /// <summary>The smallest size that is tried, in percent along each axis.</summary>
    public const int SmallestPercent = 50;

    /// <summary>The threshold of a picture for which none was given.</summary>
    public const byte DefaultThreshold = 128;

    private const int DefaultShare = 20;

    /// <summary>What may be changed; all of it by default.</summary>
    public FitChanges Allowed { get; init; } = FitChanges.All;

    /// <summary>
    /// Cells that may change, 0 and up: put in, left out or given to the other head. Turning and laying change none; a smaller size is not held to it.
    /// </summary>
    public long MostCells { get; init; }

    /// <summary>Whether head b supports what would fall; else a change after which something would fall is not taken. Default true.</summary>
    public bool AddSupport { get; init; } = true;

    /// <summary>For a picture: the shape at a threshold of 1 to 255. Null for what has no greys.</summary>
    public Func<byte, Shape>? AtThreshold { get; init; }

    /// <summary>The threshold that the shape was read with; 128 by default.</summary>
    public byte Threshold { get; init; } = DefaultThreshold;

    /// <summary>The limits where nothing was wished: a twentieth of a shape's cells, and the greys of what it was read from.</summary>
    public static FitLimits Of(Shape shape, ShapeSource source, ShapeOptions options) => new()
    {
        MostCells = (shape.Count(Head.A) + shape.Count(Head.B) + DefaultShare - 1) / DefaultShare,
        AtThreshold = source.HasGreys() ? grey => source.Read(options with { Threshold = grey, Dither = false }) : null,
        Threshold = options.Threshold ?? DefaultThreshold,
    };

    /// <summary>Whether a change may be made.</summary>
    public bool Allows(FitChanges change) => (Allowed & change) != 0;
}
