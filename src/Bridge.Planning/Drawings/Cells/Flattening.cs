using SkiaSharp;

namespace Bridge.Planning;

/// <summary>A point in cells.</summary>
internal readonly record struct Dot(double X, double Y);

/// <summary>Paths as polylines. No point of a curve is further than a tenth of a cell from its chords.</summary>
internal static class Flattening
{
    /// <summary>The tolerance in cells.</summary>
    public const double Tolerance = 0.1;

    private const double Rounding = 1e-3; // cells
    private const int MostChords = 4096; // of one curve; a curve that needs more is far larger than any grid

    /// <summary>The polylines of a path that is in cells, closed ones with their first point at the end again; each has two points or more.</summary>
    public static IEnumerable<List<Dot>> Of(SKPath path, ReadingEffort effort)
    {
        using var verbs = path.CreateRawIterator();
        var points = new SKPoint[4];
        List<Dot> line = [];
        for (var verb = verbs.Next(points); verb != SKPathVerb.Done; verb = verbs.Next(points))
        {
            if (verb == SKPathVerb.Move)
            {
                if (line.Count > 1)
                    yield return line;
                line = [At(points[0])];
                continue;
            }
            Add(line, verb, points, verbs);
            effort.Spend(1);
            if (verb != SKPathVerb.Close)
                continue;
            effort.Spend(line.Count);
            if (line.Count > 1)
                yield return line;
            line = [line[0]];
        }
        if (line.Count > 1)
            yield return line;
    }

    private static void Add(List<Dot> line, SKPathVerb verb, SKPoint[] points, SKPath.RawIterator verbs)
    {
        switch (verb)
        {
            case SKPathVerb.Line:
                line.Add(At(points[1]));
                break;
            case SKPathVerb.Quad:
                AddQuad(line, At(points[0]), At(points[1]), At(points[2]));
                break;
            case SKPathVerb.Conic:
                var quads = SKPath.ConvertConicToQuads(points[0], points[1], points[2], verbs.ConicWeight(), out var at, 3);
                for (var quad = 0; quad < quads; quad++)
                    AddQuad(line, At(at[2 * quad]), At(at[2 * quad + 1]), At(at[2 * quad + 2]));
                break;
            case SKPathVerb.Cubic:
                AddCubic(line, At(points[0]), At(points[1]), At(points[2]), At(points[3]));
                break;
            case SKPathVerb.Close:
                if (line.Count > 1 && IsSame(line[^1], line[0]))
                    line[^1] = line[0]; // else a circle would have a corner there
                else
                    line.Add(line[0]);
                break;
        }
    }

    // Up to the rounding of Skia's single precision.
    private static bool IsSame(Dot a, Dot b) => Math.Abs(a.X - b.X) < Rounding && Math.Abs(a.Y - b.Y) < Rounding;

    private static void AddQuad(List<Dot> line, Dot a, Dot b, Dot c)
    {
        var chords = Chords(Bend(a, b, c), 0.25);
        for (var i = 1; i <= chords; i++)
        {
            var t = (double)i / chords;
            var (p, q, r) = ((1 - t) * (1 - t), 2 * t * (1 - t), t * t);
            line.Add(i == chords ? c : new Dot(p * a.X + q * b.X + r * c.X, p * a.Y + q * b.Y + r * c.Y));
        }
    }

    private static void AddCubic(List<Dot> line, Dot a, Dot b, Dot c, Dot d)
    {
        var chords = Chords(Math.Max(Bend(a, b, c), Bend(b, c, d)), 0.75);
        for (var i = 1; i <= chords; i++)
        {
            var t = (double)i / chords;
            var s = 1 - t;
            var (p, q, r, u) = (s * s * s, 3 * t * s * s, 3 * t * t * s, t * t * t);
            line.Add(i == chords ? d : new Dot(p * a.X + q * b.X + r * c.X + u * d.X, p * a.Y + q * b.Y + r * c.Y + u * d.Y));
        }
    }

    // A curve of degree d in n even steps of its parameter is within d(d-1)/8 max|P(i) - 2P(i+1) + P(i+2)| / n^2
    // of its chords (G. Wang's bound of 1984, from memory).
    private static int Chords(double bend, double share) => (int)Math.Clamp(Math.Ceiling(Math.Sqrt(share * bend / Tolerance)), 1, MostChords);

    private static double Bend(Dot a, Dot b, Dot c) => Math.Sqrt(Square(a.X - 2 * b.X + c.X) + Square(a.Y - 2 * b.Y + c.Y));

    private static double Square(double value) => value * value;

    private static Dot At(SKPoint point) => new(point.X, point.Y);
}
