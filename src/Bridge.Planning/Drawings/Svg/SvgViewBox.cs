using System.Xml.Linq;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>The part of the plane that is fitted into a viewport.</summary>
internal readonly record struct SvgViewBox(double X, double Y, double Width, double Height)
{
    /// <summary>Of an element's attribute; null where it has none that is sound.</summary>
    public static SvgViewBox? Of(XElement element) =>
        element.Attribute("viewBox") is { } text && SvgNumbers.List(text.Value) is [var x, var y, > 0 and var width, > 0 and var height]
            ? new SvgViewBox(x, y, width, height)
            : null;

    /// <summary>To a viewport of some pixels at (0, 0), as preserveAspectRatio wants it; the middle, wholly seen, where it is not given.</summary>
    public SKMatrix ToViewport(double width, double height, string? wish)
    {
        var words = (wish ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(word => word != "defer").ToArray();
        var (scaleX, scaleY) = (width / Width, height / Height);
        var align = words is [var first, ..] ? first : "xMidYMid";
        if (align != "none")
            scaleX = scaleY = words is [_, "slice"] ? Math.Max(scaleX, scaleY) : Math.Min(scaleX, scaleY);
        var left = (width - Width * scaleX) * Share(align, 'x');
        var top = (height - Height * scaleY) * Share(align, 'Y');
        return new SKMatrix((float)scaleX, 0, (float)(left - X * scaleX), 0, (float)scaleY, (float)(top - Y * scaleY), 0, 0, 1);
    }

    private static double Share(string align, char axis)
    {
        var at = align.IndexOf(axis, StringComparison.Ordinal);
        return at < 0 || at + 4 > align.Length ? 0.5 : align.Substring(at + 1, 3) switch { "Min" => 0, "Max" => 1, _ => 0.5 };
    }
}
