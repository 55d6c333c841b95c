using System.Xml.Linq;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Where elements are drawn: their user units, and how large the part of the plane is that they see.</summary>
/// <param name="ToPage">From user units to units of the page.</param>
/// <param name="Width">Its width in user units: what percentages are of.</param>
/// <param name="Height">Its height in user units.</param>
internal readonly record struct SvgViewport(SKMatrix ToPage, double Width, double Height)
{
    /// <summary>What percentages are of that are neither of the width nor of the height.</summary>
    public double Diagonal => Math.Sqrt((Width * Width + Height * Height) / 2);

    /// <summary>Moved by x and y of an element.</summary>
    public SvgViewport Shifted(XElement element) => this with
    {
        ToPage = SKMatrix.Concat(ToPage, SKMatrix.CreateTranslation((float)Length(element, "x", Width, 0), (float)Length(element, "y", Height, 0))),
    };

    /// <summary>The viewport that an svg or symbol element opens; what uses it, where something does, has the say on its size.</summary>
    public SvgViewport Inner(XElement element, XElement? use)
    {
        var (width, height) = (Size("width", Width), Size("height", Height));
        var at = use is null ? Shifted(element) : this;
        if (SvgViewBox.Of(element) is not { } box)
            return at with { Width = width, Height = height };
        var toViewport = box.ToViewport(width, height, element.Attribute("preserveAspectRatio")?.Value);
        return new SvgViewport(SKMatrix.Concat(at.ToPage, toViewport), box.Width, box.Height);

        double Size(string name, double whole) =>
            use?.Attribute(name) is not null ? Length(use, name, whole, whole) : Length(element, name, whole, whole);
    }

    private static double Length(XElement element, string name, double basis, double missing) =>
        element.Attribute(name) is { } text && SvgNumbers.TryLength(text.Value, basis, out var length) ? length : missing;
}
