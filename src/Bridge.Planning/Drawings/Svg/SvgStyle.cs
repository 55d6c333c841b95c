using System.Xml.Linq;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>The properties of an element that matter for drawing it, most of them handed down to the elements in it.</summary>
internal sealed record SvgStyle
{
    /// <summary>The properties that are read.</summary>
    public static readonly string[] Names =
    [
        "color", "fill", "fill-rule", "fill-opacity", "stroke", "stroke-width", "stroke-opacity", "stroke-linecap", "stroke-linejoin", "stroke-miterlimit",
        "stroke-dasharray", "opacity", "display", "visibility", "clip-path", "mask", "filter", "marker", "marker-start", "marker-mid", "marker-end",
    ];

    private SvgPaint Fill { get; init; } = new(SKColors.Black);

    private SvgPaint Stroke { get; init; } = new(null);

    private SKColor Color { get; init; } = SKColors.Black;

    private double FillOpacity { get; init; } = 1;

    private double StrokeOpacity { get; init; } = 1;

    private double Opacity { get; init; } = 1;

    private double Width { get; init; } = 1;

    private SKStrokeCap Cap { get; init; }

    private SKStrokeJoin Join { get; init; }

    private double Miter { get; init; } = 4;

    /// <summary>Whether areas are even-odd; else nonzero.</summary>
    public bool IsEvenOdd { get; private init; }

    /// <summary>Whether the element itself is seen; elements in it may be seen all the same.</summary>
    public bool IsVisible { get; private init; } = true;

    /// <summary>Whether the element and all in it is left out.</summary>
    public bool IsLeftOut { get; private init; }

    /// <summary>How wide lines are, in the element's own units.</summary>
    public Pen Pen => new((float)Width, Cap, Join, (float)Miter);

    /// <summary>The colour of areas with its opacity; null for none.</summary>
    public SKColor? FillColor => Seen(Fill, FillOpacity);

    /// <summary>The colour of lines with its opacity; null for none.</summary>
    public SKColor? StrokeColor => Width > 0 ? Seen(Stroke, StrokeOpacity) : null;

    /// <summary>The style of an element inside one of this style: by its attributes, then by style sheets, then by its own style attribute.</summary>
    public SvgStyle Of(XElement element, SvgStyleSheet sheet, double diagonal, SvgCautions cautions)
    {
        var style = this;
        foreach (var name in Names)
            if (element.Attribute(name) is { } attribute)
                style = style.With(name, attribute.Value, diagonal, cautions);
        foreach (var (name, value) in sheet.Of(element))
            style = style.With(name, value, diagonal, cautions);
        foreach (var (name, value) in SvgStyleSheet.Declarations(element.Attribute("style")?.Value ?? ""))
            style = style.With(name, value, diagonal, cautions);
        return style;
    }

    private SKColor? Seen(SvgPaint paint, double opacity)
    {
        var color = paint.IsCurrent ? Color : paint.Color;
        return color?.WithAlpha((byte)Math.Round(color.Value.Alpha * Math.Clamp(opacity * Opacity, 0, 1)));
    }

    private SvgStyle With(string name, string text, double diagonal, SvgCautions cautions)
    {
        var value = text.Trim();
        if (value is "inherit" or "")
            return this;
        switch (name)
        {
            case "color":
                return SvgColor.Parse(value) is { } color ? this with { Color = color } : Unknown();
            case "fill":
                return SvgPaint.Parse(value) is { } fill ? this with { Fill = fill } : this with { Fill = UnknownPaint(Fill) };
            case "stroke":
                return SvgPaint.Parse(value) is { } stroke ? this with { Stroke = stroke } : this with { Stroke = UnknownPaint(Stroke) };
            case "fill-rule":
                return this with { IsEvenOdd = value == "evenodd" };
            case "fill-opacity":
                return Share(value) is { } ofFill ? this with { FillOpacity = ofFill } : Unknown();
            case "stroke-opacity":
                return Share(value) is { } ofStroke ? this with { StrokeOpacity = ofStroke } : Unknown();
            case "opacity":
                return Share(value) is { } ofAll ? this with { Opacity = Opacity * ofAll } : Unknown();
            case "stroke-width":
                return SvgNumbers.TryLength(value, diagonal, out var width) && width >= 0 ? this with { Width = width } : Unknown();
            case "stroke-linecap":
                return this with { Cap = value switch { "round" => SKStrokeCap.Round, "square" => SKStrokeCap.Square, _ => SKStrokeCap.Butt } };
            case "stroke-linejoin":
                return this with { Join = value switch { "round" => SKStrokeJoin.Round, "bevel" => SKStrokeJoin.Bevel, _ => SKStrokeJoin.Miter } };
            case "stroke-miterlimit":
                return SvgNumbers.TryNumber(value, out var miter) && miter >= 1 ? this with { Miter = miter } : Unknown();
            case "display":
                return this with { IsLeftOut = value == "none" };
            case "visibility":
                return this with { IsVisible = value == "visible" };
            case "clip-path" or "mask" or "filter" or "marker" or "marker-start" or "marker-mid" or "marker-end" or "stroke-dasharray":
                if (value is not ("none" or "0"))
                    cautions.DrawnWithout(name);
                return this;
            default:
                return this;
        }

        SvgStyle Unknown()
        {
            cautions.DrawnWithout($"{name} '{Short(value)}'");
            return this;
        }

        SvgPaint UnknownPaint(SvgPaint before)
        {
            var isReference = value.StartsWith("url(", StringComparison.Ordinal);
            cautions.DrawnWithout(isReference ? $"{name} by reference (gradient or pattern)" : $"{name} '{Short(value)}'");
            return isReference ? new SvgPaint(null) : before;
        }
    }

    private static double? Share(string value) => SvgNumbers.TryLength(value, 1, out var share) ? Math.Clamp(share, 0, 1) : null;

    private static string Short(string value) => value.Length <= 20 ? value : value[..20] + "...";
}
