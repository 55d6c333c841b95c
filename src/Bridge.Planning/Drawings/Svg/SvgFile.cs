using System.Xml.Linq;
using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Drawings in SVG as shapes of one layer: lines and areas by colour. The top of the page is the far edge (largest y).</summary>
public static class SvgFile
{
    private const double Thinnest = 1e-3; // of the longest side: a page around a single line has some width

    /// <summary>Reads an SVG onto cells. What cannot be drawn is told as a caution.</summary>
    /// <exception cref="RefusedException">It is broken, too much, works no cell, or does not lie on the grid.</exception>
    public static Shape Parse(ReadOnlySpan<byte> content, string name, ShapeOptions options)
    {
        using var drawing = Read(content, name, options);
        return DrawingCells.Of(drawing, name, options);
    }

    /// <summary>Reads an SVG as lines and areas.</summary>
    internal static Drawing Read(ReadOnlySpan<byte> content, string name, ShapeOptions options)
    {
        var root = SvgDocument.Read(content, name);
        var cautions = new SvgCautions(name, options.Caution);
        var (viewport, page) = Page(root, name);
        var parts = new SvgWalk(root, name, new SvgInks(name, options, cautions), cautions).Parts(viewport);
        cautions.Tell();
        if (parts.Count == 0)
            throw new RefusedException(name, "a drawing without lines and areas", "one line or area that is seen, or more",
                "Turn text into paths, and see that something is painted.");
        return page is { } known
            ? new Drawing(known.Width, known.Height, parts) { UnitMm = known.UnitMm }
            : Around(parts);
    }

    // The page is as large as the root says, or as its view box where it does not, or else just around what is drawn.
    private static (SvgViewport Viewport, (double Width, double Height, double? UnitMm)? Page) Page(XElement root, string name)
    {
        var (width, height) = (Side(root, "width", name, out var isWidthMm), Side(root, "height", name, out var isHeightMm));
        double? unitMm = isWidthMm || isHeightMm ? SvgNumbers.PixelMm : null;
        if (SvgViewBox.Of(root) is { } box)
        {
            var (w, h) = (width ?? (height is { } tall ? tall * box.Width / box.Height : box.Width),
                height ?? (width is { } wide ? wide * box.Height / box.Width : box.Height));
            var toPage = box.ToViewport(w, h, root.Attribute("preserveAspectRatio")?.Value);
            return (new SvgViewport(toPage, box.Width, box.Height), (w, h, unitMm));
        }
        return width is { } x && height is { } y
            ? (new SvgViewport(SKMatrix.Identity, x, y), (x, y, unitMm))
            : (new SvgViewport(SKMatrix.Identity, 100, 100), null);
    }

    private static double? Side(XElement root, string side, string name, out bool isPhysical)
    {
        isPhysical = false;
        if (root.Attribute(side)?.Value.Trim() is not { } text || text is "auto" or "" || text.EndsWith('%'))
            return null;
        return SvgNumbers.TryLength(text, 0, out var length, out isPhysical) && length > 0 && length <= Length.Largest
            ? length
            : throw new RefusedException($"{name}, {side}", $"\"{(text.Length <= 20 ? text : text[..20] + "...")}\"",
                "a length above 0, up to 1 000 000 pixels", "Set the size of the page.");
    }

    private static Drawing Around(IReadOnlyList<Painted> parts)
    {
        var bounds = parts.Select(part => part.ToPage.MapRect(part.Path.TightBounds))
            .Aggregate((all, one) => new SKRect(Math.Min(all.Left, one.Left), Math.Min(all.Top, one.Top),
                Math.Max(all.Right, one.Right), Math.Max(all.Bottom, one.Bottom)));
        var least = Math.Max(1e-6, Thinnest * Math.Max(bounds.Width, bounds.Height));
        var toCorner = SKMatrix.CreateTranslation(-bounds.Left, -bounds.Top);
        return new Drawing(Math.Max(least, bounds.Width), Math.Max(least, bounds.Height),
            [.. parts.Select(part => part with { ToPage = SKMatrix.Concat(toCorner, part.ToPage) })]);
    }
}
