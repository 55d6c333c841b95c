using System.Globalization;
using System.Xml.Linq;
using SkiaSharp;

namespace Planning.Bench;

/// <summary>The strokes of an icon as Skia itself draws them on a bitmap, without smoothing.</summary>
internal static class StrokeRaster
{
    /// <summary>
    /// Which cells have ink in any of their pixels, by x and y with y going up; strokes as thin as Skia draws them, one pixel, or as wide as the icon says.
    /// A cell is as many pixels wide and high as <paramref name="pixels"/> says.
    /// </summary>
    public static bool[,] Of(byte[] svg, int width, int depth, bool isWide, int pixels)
    {
        var root = XDocument.Load(new MemoryStream(svg)).Root!;
        var box = root.Attribute("viewBox")!.Value.Split(' ').Select(Number).ToArray();
        var scale = Math.Min(width / box[2], depth / box[3]) * pixels;
        using var bitmap = new SKBitmap(width * pixels, depth * pixels);
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.White);
        canvas.Translate(0, depth * pixels - box[3] * scale);
        canvas.Scale(scale);
        using var paint = new SKPaint
        {
            IsStroke = true,
            IsAntialias = false,
            StrokeWidth = isWide ? Number(root.Attribute("stroke-width")!.Value) : 0,
            StrokeCap = SKStrokeCap.Round,
            StrokeJoin = SKStrokeJoin.Round,
        };
        foreach (var element in root.Elements())
        {
            using var path = PathOf(element);
            canvas.DrawPath(path, paint);
            if (!isWide)
                DrawDots(canvas, path, scale, paint);
        }
        canvas.Flush();
        var cells = new bool[width, depth];
        var ink = bitmap.Pixels;
        for (var i = 0; i < ink.Length; i++)
            if (ink[i].Red < 128)
                cells[i % bitmap.Width / pixels, depth - 1 - i / bitmap.Width / pixels] = true;
        return cells;
    }

    // A line shorter than a pixel, which the thinnest stroke may pass over, is a pixel.
    private static void DrawDots(SKCanvas canvas, SKPath path, float scale, SKPaint paint)
    {
        if (Math.Max(path.Bounds.Width, path.Bounds.Height) * scale < 1)
            canvas.DrawPoint(path.GetPoint(0), paint);
        using var contours = new SKPathMeasure(path, forceClosed: false);
        do
        {
            if (contours.Length * scale < 1 && contours.GetPosition(0, out var at))
                canvas.DrawPoint(at, paint);
        }
        while (contours.NextContour());
    }

    private static SKPath PathOf(XElement element)
    {
        float At(string name) => element.Attribute(name) is { } attribute ? Number(attribute.Value) : 0;
        using var path = new SKPathBuilder();
        switch (element.Name.LocalName)
        {
            case "path":
                return SKPath.ParseSvgPathData(element.Attribute("d")!.Value)!;
            case "line":
                path.MoveTo(At("x1"), At("y1"));
                path.LineTo(At("x2"), At("y2"));
                break;
            case "circle":
                path.AddCircle(At("cx"), At("cy"), At("r"), SKPathDirection.Clockwise);
                break;
            case "ellipse":
                path.AddOval(new SKRect(At("cx") - At("rx"), At("cy") - At("ry"), At("cx") + At("rx"), At("cy") + At("ry")), SKPathDirection.Clockwise);
                break;
            case "rect":
                var rx = At("rx");
                var ry = At("ry") > 0 ? At("ry") : rx;
                path.AddRoundRect(SKRect.Create(At("x"), At("y"), At("width"), At("height")), rx, ry, SKPathDirection.Clockwise);
                break;
            case "polyline" or "polygon":
                var points = element.Attribute("points")!.Value.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).Select(Number).Chunk(2)
                    .Select(pair => new SKPoint(pair[0], pair[1])).ToArray();
                path.AddPoly(points, element.Name.LocalName == "polygon");
                break;
            default:
                throw new InvalidOperationException($"An icon has <{element.Name.LocalName}>, which is not measured.");
        }
        return path.Detach();
    }

    private static float Number(string text) => float.Parse(text, CultureInfo.InvariantCulture);
}
