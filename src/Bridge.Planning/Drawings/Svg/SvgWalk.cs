using System.Xml.Linq;
using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Goes through the elements of an SVG in the order in which they are painted, and gathers what each paints.</summary>
internal sealed class SvgWalk(XElement root, string name, SvgInks inks, SvgCautions cautions)
{
    private const int MostElements = 100_000; // seen in all, those that are used again counted each time
    private const int StepsPerCharacter = 10;
    private const int StepsPerPoint = 200;

    // These say nothing that is drawn.
    private static readonly string[] Silent =
    [
        "title", "desc", "metadata", "defs", "style", "symbol", "clipPath", "mask", "filter", "marker", "linearGradient", "radialGradient", "pattern", "script",
    ];

    private static readonly string[] Groups = ["g", "a", "switch"];

    private readonly SvgStyleSheet _sheet = SvgStyleSheet.Of(root, cautions);
    private readonly Dictionary<string, XElement> _byId = ById(root);
    private readonly HashSet<XElement> _inUse = [];
    private readonly SvgShapes _shapes = new(name);
    private readonly ReadingEffort _effort = new(name);
    private readonly List<Painted> _parts = [];
    private int _elements;

    /// <summary>What the elements of the root paint, from its user units to units of the page.</summary>
    public IReadOnlyList<Painted> Parts(SvgViewport viewport)
    {
        try
        {
            Children(root, new SvgStyle().Of(root, _sheet, viewport.Diagonal, cautions), viewport);
            return _parts;
        }
        catch
        {
            foreach (var part in _parts)
                part.Path.Dispose();
            throw;
        }
    }

    private static Dictionary<string, XElement> ById(XElement root)
    {
        Dictionary<string, XElement> byId = new(StringComparer.Ordinal);
        foreach (var element in root.Descendants())
            if (element.Attribute("id")?.Value is { } id)
                byId.TryAdd(id, element);
        return byId;
    }

    private void Children(XElement parent, SvgStyle style, SvgViewport viewport)
    {
        foreach (var element in parent.Elements())
            Walk(element, style, viewport);
    }

    private void Walk(XElement element, SvgStyle above, SvgViewport viewport)
    {
        if (SvgDocument.LocalName(element) is not { } kind || Silent.Contains(kind))
            return;
        if (++_elements > MostElements)
            throw new RefusedException(name, $"more than {MostElements} elements to draw, repeated ones counted each time", $"up to {MostElements}",
                "Make the drawing simpler.");
        _effort.Spend(StepsPerCharacter * element.Attributes().Sum(attribute => (long)attribute.Value.Length));
        var style = above.Of(element, _sheet, viewport.Diagonal, cautions);
        if (style.IsLeftOut)
            return;
        var moved = Moved(element, viewport);
        if (SvgShapes.Names.Contains(kind))
            Paint(element, style, moved);
        else if (Groups.Contains(kind))
            Children(element, style, moved);
        else if (kind == "use")
            Use(element, style, moved);
        else if (kind == "svg")
            Children(element, style, moved.Inner(element, null));
        else
            cautions.LeftOut(kind);
    }

    private SvgViewport Moved(XElement element, SvgViewport viewport)
    {
        if (element.Attribute("transform")?.Value is not { } text)
            return viewport;
        var transform = SvgTransform.Parse(text)
            ?? throw new RefusedException($"{SvgDocument.Place(element, name)}, <{element.Name.LocalName}>",
                $"transform \"{(text.Length <= 40 ? text : text[..40] + "...")}\"",
                "matrix, translate, scale, rotate, skewX and skewY with their numbers", "Mend the drawing, or save it again as plain SVG.");
        return viewport with { ToPage = SKMatrix.Concat(viewport.ToPage, transform) };
    }

    private void Paint(XElement element, SvgStyle style, SvgViewport viewport)
    {
        var (fill, stroke) = element.Name.LocalName == "line"
            ? (null, inks.Of(style.StrokeColor))
            : (inks.Of(style.FillColor), inks.Of(style.StrokeColor));
        if (!style.IsVisible || (fill is null && stroke is null) || _shapes.PathOf(element, viewport.Width, viewport.Height) is not { } path)
            return;
        path.FillType = style.IsEvenOdd ? SKPathFillType.EvenOdd : SKPathFillType.Winding;
        _parts.Add(new Painted(path, viewport.ToPage, fill, stroke, style.Pen));
        _effort.Spend((long)StepsPerPoint * path.PointCount);
    }

    private void Use(XElement use, SvgStyle style, SvgViewport viewport)
    {
        var reference = use.Attribute("href")?.Value ?? use.Attribute(XNamespace.Get("http://www.w3.org/1999/xlink") + "href")?.Value ?? "";
        if (!reference.StartsWith('#') || !_byId.TryGetValue(reference[1..], out var used))
        {
            cautions.LeftOut("use of what is not in the file");
            return;
        }
        if (use.AncestorsAndSelf().Contains(used) || !_inUse.Add(used))
            throw new RefusedException($"{SvgDocument.Place(use, name)}, <use>", "an element that is used in itself", "uses of other elements",
                "Mend the drawing.");
        var at = viewport.Shifted(use);
        if (SvgDocument.IsSvg(used, "symbol") || SvgDocument.IsSvg(used, "svg"))
            Children(used, style.Of(used, _sheet, viewport.Diagonal, cautions), at.Inner(used, use));
        else
            Walk(used, style, at);
        _inUse.Remove(used);
    }
}
