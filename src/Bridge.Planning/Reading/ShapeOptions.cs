using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>How a file is read as a shape.</summary>
public sealed record ShapeOptions
{
    /// <summary>The largest shape to accept, mostly a machine's grid; default 4096 x 4096 x 4096.</summary>
    public Grid Limit { get; init; } = new(Shape.MaxSide, Shape.MaxSide, Shape.MaxSide);

    /// <summary>For a picture: a pixel darker than this is worked, 0 (none) to 255 (all but white); null means 128. Not used when dithering.</summary>
    public byte? Threshold { get; init; }

    /// <summary>For a picture: whether greys become scattered cells by Floyd-Steinberg dithering; default false.</summary>
    public bool Dither { get; init; }
}
