using System.Xml.Linq;
using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>The basic shapes of SVG as paths.</summary>
/// <param name="name">What refusals call the drawing.</param>
internal sealed class SvgShapes(string name)
{
    /// <summary>Most characters of the data of one path: 2 Mi.</summary>
    public const int MostPathData = 2 << 20;

    /// <summary>The elements that are shapes.</summary>
    public static readonly string[] Names = ["path", "line", "polyline", "polygon", "rect", "circle", "ellipse"];

    /// <summary>The path of a shape; null where its size says that it is not drawn.</summary>
    /// <exception cref="RefusedException">Its numbers are broken, or it has too many.</exception>
    public SKPath? PathOf(XElement element, double width, double height)
    {
        var of = new Attributes(this, element, width, height);
        var path = element.Name.LocalName switch
        {
            "path" => FromData(element),
            "line" => Poly([new((float)of.X("x1"), (float)of.Y("y1")), new((float)of.X("x2"), (float)of.Y("y2"))], isClosed: false),
            "polyline" => Points(element, isClosed: false),
            "polygon" => Points(element, isClosed: true),
            "rect" => Rect(of),
            "circle" => Oval(of.X("cx"), of.Y("cy"), of.Diagonal("r"), of.Diagonal("r")),
            _ => Oval(of.X("cx"), of.Y("cy"), of.MaybeX("rx") ?? of.MaybeY("ry") ?? 0, of.MaybeY("ry") ?? of.MaybeX("rx") ?? 0),
        };
        if (path is null)
            return null;
        if (float.IsFinite(path.Bounds.Width) && float.IsFinite(path.Bounds.Height))
            return path;
        path.Dispose();
        throw Refused(element, "numbers without bounds", "finite numbers");
    }

    private SKPath? FromData(XElement element)
    {
        var data = element.Attribute("d")?.Value.Trim() ?? "";
        if (data is "" or "none")
            return null;
        if (data.Length > MostPathData)
            throw Refused(element, $"path data of {data.Length} characters", $"up to {MostPathData}");
        var path = SKPath.ParseSvgPathData(data);
        return path is { IsEmpty: false }
            ? path
            : throw Refused(element, $"path data \"{(data.Length <= 40 ? data : data[..40] + "...")}\"", "path data as SVG has it");
    }

    private SKPath? Points(XElement element, bool isClosed)
    {
        var numbers = SvgNumbers.List(element.Attribute("points")?.Value ?? "");
        if (numbers is null || numbers.Count % 2 != 0)
            throw Refused(element, "points that are no pairs of numbers", "x,y for each point");
        return numbers.Count == 0 ? null : Poly([.. numbers.Chunk(2).Select(pair => new SKPoint((float)pair[0], (float)pair[1]))], isClosed);
    }

    private static SKPath Poly(SKPoint[] points, bool isClosed)
    {
        using var path = new SKPathBuilder();
        path.AddPoly(points, isClosed);
        return path.Detach();
    }

    private static SKPath? Rect(Attributes of)
    {
        var (width, height) = (of.X("width"), of.Y("height"));
        if (!(width > 0 && height > 0))
            return null;
        var rx = Math.Clamp(of.MaybeX("rx") ?? of.MaybeY("ry") ?? 0, 0, width / 2);
        var ry = Math.Clamp(of.MaybeY("ry") ?? of.MaybeX("rx") ?? 0, 0, height / 2);
        using var path = new SKPathBuilder();
        var rect = SKRect.Create((float)of.X("x"), (float)of.Y("y"), (float)width, (float)height);
        if (rx > 0 && ry > 0)
            path.AddRoundRect(rect, (float)rx, (float)ry, SKPathDirection.Clockwise);
        else
            path.AddRect(rect, SKPathDirection.Clockwise);
        return path.Detach();
    }

    private static SKPath? Oval(double x, double y, double rx, double ry)
    {
        if (!(rx > 0 && ry > 0))
            return null;
        using var path = new SKPathBuilder();
        path.AddOval(new SKRect((float)(x - rx), (float)(y - ry), (float)(x + rx), (float)(y + ry)), SKPathDirection.Clockwise);
        return path.Detach();
    }

    private RefusedException Refused(XElement element, string found, string allowed) =>
        new($"{SvgDocument.Place(element, name)}, <{element.Name.LocalName}>", found, allowed, "Mend the drawing, or save it again as plain SVG.");

    // Lengths by attribute, 0 where there is none; percentages are of the viewport.
    private readonly struct Attributes(SvgShapes shapes, XElement element, double width, double height)
    {
        public double X(string attribute) => MaybeX(attribute) ?? 0;

        public double Y(string attribute) => MaybeY(attribute) ?? 0;

        public double? MaybeX(string attribute) => Length(attribute, width);

        public double? MaybeY(string attribute) => Length(attribute, height);

        public double Diagonal(string attribute) => Length(attribute, Math.Sqrt((width * width + height * height) / 2)) ?? 0;

        private double? Length(string attribute, double basis)
        {
            if (element.Attribute(attribute)?.Value is not { } text || text.Trim() == "auto")
                return null;
            return SvgNumbers.TryLength(text, basis, out var length)
                ? length
                : throw shapes.Refused(element, $"{attribute} \"{(text.Length <= 20 ? text : text[..20] + "...")}\"", "a length");
        }
    }
}
