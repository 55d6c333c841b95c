using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A side of the box around a shape.</summary>
public enum Face
{
    /// <summary>The lowest layer.</summary>
    Bottom,

    /// <summary>The highest layer.</summary>
    Top,

    /// <summary>x = 0.</summary>
    Left,

    /// <summary>The largest x.</summary>
    Right,

    /// <summary>y = 0.</summary>
    Near,

    /// <summary>The largest y.</summary>
    Far,
}

/// <summary>One of the 24 ways in which a shape can lie on the table, none of them mirrored: first it is tilted onto a face, then turned about Z.</summary>
/// <param name="Below">The face that comes to lie below.</param>
/// <param name="Quarters">Quarter turns counter-clockwise seen from above, 0 to 3.</param>
public readonly record struct Orientation(Face Below, int Quarters)
{
    private static readonly int[][] Tilts = [[1, 2, 3], [1, -2, -3], [-3, 2, 1], [3, 2, -1], [1, -3, 2], [1, 3, -2]]; // by face, as Sources

    /// <summary>The shape as it is.</summary>
    public static Orientation AsItIs => default;

    /// <summary>All 24, the shape as it is first and then its turns.</summary>
    public static IReadOnlyList<Orientation> All { get; } =
        [.. from face in Enum.GetValues<Face>() from quarters in Enumerable.Range(0, 4) select new Orientation(face, quarters)];

    /// <summary>The one that takes this one back.</summary>
    public Orientation Inverse
    {
        get
        {
            var (sources, back) = (Sources(), new int[3]);
            for (var axis = 0; axis < 3; axis++)
                back[Math.Abs(sources[axis]) - 1] = Math.Sign(sources[axis]) * (axis + 1);
            return All.First(other => other.Sources().SequenceEqual(back));
        }
    }

    /// <summary>The shape lying that way, its box at the corner (0, 0) of layer 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such face, or the quarters are not 0 to 3.</exception>
    public Shape Of(Shape shape)
    {
        if (this == AsItIs)
            return shape;
        var (sources, sides) = (Sources(), new[] { shape.Width, shape.Depth, shape.Layers });
        var sizes = Array.ConvertAll(sources, source => sides[Math.Abs(source) - 1]);
        var laid = new ShapeBuilder(sizes[0], sizes[1], sizes[2]);
        Span<int> from = stackalloc int[3], to = stackalloc int[3];
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            var cells = shape.LayerCells(layer);
            for (var place = 0; place < cells.Length; place++)
            {
                if (Shape.HeadOf(cells[place]) is not { } head)
                    continue;
                (from[0], from[1], from[2]) = (place % shape.Width, place / shape.Width, layer);
                for (var axis = 0; axis < 3; axis++)
                    to[axis] = sources[axis] > 0 ? from[sources[axis] - 1] : sizes[axis] - 1 - from[-sources[axis] - 1];
                laid.Work(new Cell(to[0], to[1]), to[2], head);
            }
        }
        return laid.Build();
    }

    /// <summary>The way in plain words.</summary>
    public override string ToString()
    {
        var turned = Quarters == 0 ? "" : $"turned by {90 * Quarters} degrees";
        var laid = Below switch
        {
            Face.Bottom => "",
            Face.Top => "laid upside down",
            _ => $"laid on its {Below.ToString().ToLowerInvariant()} side",
        };
        return (laid, turned) is ("", "") ? "as it is" : string.Join(" and ", new[] { laid, turned }.Where(part => part.Length > 0));
    }

    // For X, Y and Z of the result the axis of the shape that it shows, 1 to 3; negative where it runs the other way.
    private int[] Sources()
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan((uint)Below, (uint)Face.Far, nameof(Below));
        ArgumentOutOfRangeException.ThrowIfGreaterThan((uint)Quarters, 3u, nameof(Quarters));
        int[] sources = [.. Tilts[(int)Below]];
        for (var quarter = 0; quarter < Quarters; quarter++)
            (sources[0], sources[1]) = (-sources[1], sources[0]);
        return sources;
    }
}
