using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>How a file is read as a shape.</summary>
public sealed record ShapeOptions
{
    private readonly Grid? _fill;

    /// <summary>Options that know a machine's grid, pitch and heads; the largest shape to accept stays as it is.</summary>
    public ShapeOptions On(Machine machine) => this with
    {
        Fill = machine.Grid,
        Pitch = new Pitch(machine.X.PitchMm, machine.Y.PitchMm, machine.Z?.PitchMm ?? machine.X.PitchMm),
        HasHeadB = machine.B is not null,
    };

    /// <summary>The largest shape to accept, mostly a machine's grid; default 4096 x 4096 x 4096.</summary>
    public Grid Limit { get; init; } = Shape.LargestGrid;

    /// <summary>The grid that is filled by what has no size of its own; default the limit.</summary>
    public Grid Fill
    {
        get => _fill ?? Limit;
        init => _fill = value;
    }

    /// <summary>The distances from cell to cell; default 1 mm.</summary>
    public Pitch Pitch { get; init; } = new(1, 1, 1);

    /// <summary>Whether there is a head b for what a drawing has in colour; default true.</summary>
    public bool HasHeadB { get; init; } = true;

    /// <summary>For a picture or a drawing: what is darker than this is worked, 0 to 255; null means 128. Not used when dithering.</summary>
    public byte? Threshold { get; init; }

    /// <summary>For a picture: whether greys become scattered cells by Floyd-Steinberg dithering; default false.</summary>
    public bool Dither { get; init; }

    /// <summary>For all but cells: the longest side, above 0; null for a drawing's own size, a picture's pixels, or else as large as fits.</summary>
    public Length? Size { get; init; }

    /// <summary>For text: the height of a capital, 3 cells and more; default as large as fits.</summary>
    public Length? Height { get; init; }

    /// <summary>Where it comes to lie; default the grid's corner.</summary>
    public GridPlace Place { get; init; } = GridPlace.Corner;

    /// <summary>How it is turned, one turn after the other; default not at all. Cells and pictures take quarter turns about Z.</summary>
    public IReadOnlyList<Turn> Turns { get; init; } = [];

    /// <summary>The thickness, 1 cell and more, of the walls and over layers of the roof that are left of what is solid; null leaves it solid.</summary>
    public Length? Hollow { get; init; }

    /// <summary>For a drawing: whether strokes are as wide as it says; default false, one cell.</summary>
    public bool Wide { get; init; }

    /// <summary>Told what was left out or made good, in a sentence each; default nobody.</summary>
    public Action<string>? Caution { get; init; }
}
