using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Transforms as SVG writes them: matrix, translate, scale, rotate, skewX and skewY, one after the other.</summary>
internal static class SvgTransform
{
    private const int Most = 100;

    /// <summary>The whole as a matrix; null where it is no list of transforms.</summary>
    public static SKMatrix? Parse(string text)
    {
        var matrix = SKMatrix.Identity;
        var rest = text.AsSpan().Trim();
        for (var count = 0; !rest.IsEmpty; count++)
        {
            var open = rest.IndexOf('(');
            var close = rest.IndexOf(')');
            if (open < 0 || close < open || count == Most)
                return null;
            if (SvgNumbers.List(rest[(open + 1)..close].ToString()) is not { } numbers || One(rest[..open].Trim().ToString(), numbers) is not { } one)
                return null;
            matrix = SKMatrix.Concat(matrix, one);
            rest = rest[(close + 1)..].TrimStart([' ', '\t', '\r', '\n', ',']);
        }
        return matrix.Values.All(float.IsFinite) ? matrix : null;
    }

    private static SKMatrix? One(string name, List<double> numbers) => (name, numbers) switch
    {
        ("matrix", [var a, var b, var c, var d, var e, var f]) => Matrix(a, b, c, d, e, f),
        ("translate", [var x]) => Matrix(1, 0, 0, 1, x, 0),
        ("translate", [var x, var y]) => Matrix(1, 0, 0, 1, x, y),
        ("scale", [var both]) => Matrix(both, 0, 0, both, 0, 0),
        ("scale", [var x, var y]) => Matrix(x, 0, 0, y, 0, 0),
        ("rotate", [var angle]) => Rotation(angle, 0, 0),
        ("rotate", [var angle, var x, var y]) => Rotation(angle, x, y),
        ("skewX", [var angle]) => Matrix(1, 0, Math.Tan(Radians(angle)), 1, 0, 0),
        ("skewY", [var angle]) => Matrix(1, Math.Tan(Radians(angle)), 0, 1, 0, 0),
        _ => null,
    };

    private static SKMatrix Rotation(double angle, double x, double y)
    {
        var (sine, cosine) = Math.SinCos(Radians(angle));
        return Matrix(cosine, sine, -sine, cosine, x - cosine * x + sine * y, y - sine * x - cosine * y);
    }

    // x' = a x + c y + e, y' = b x + d y + f
    private static SKMatrix Matrix(double a, double b, double c, double d, double e, double f) =>
        new((float)a, (float)c, (float)e, (float)b, (float)d, (float)f, 0, 0, 1);

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}
