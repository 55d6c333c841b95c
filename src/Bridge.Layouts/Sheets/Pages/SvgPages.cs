using System.Globalization;
using System.Net;
using System.Text;

namespace Bridge.Layouts;

/// <summary>Pages as SVG, below one another.</summary>
internal static class SvgPages
{
    public static string Of(IReadOnlyList<Page> pages) => Drawing(pages);

    /// <summary>One page as an element of a larger document.</summary>
    public static string Of(Page page) => Drawing([page]);

    private static string Drawing(IReadOnlyList<Page> pages)
    {
        var text = new StringBuilder();
        var height = Page.HeightMm * pages.Count;
        text.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Page.WidthMm}mm\" height=\"{height}mm\" ")
            .Append(CultureInfo.InvariantCulture, $"viewBox=\"0 0 {Page.WidthMm} {height}\" font-family=\"monospace\">\n")
            .Append(CultureInfo.InvariantCulture, $"<rect width=\"{Page.WidthMm}\" height=\"{height}\" fill=\"white\"/>\n");
        for (var page = 0; page < pages.Count; page++)
        {
            text.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(0 {page * Page.HeightMm})\" stroke-width=\"0.15\">\n");
            foreach (var mark in pages[page].Marks)
                text.Append(Element(mark)).Append('\n');
            text.Append("</g>\n");
        }
        return text.Append("</svg>\n").ToString();
    }

    private static string Element(Mark mark) => mark switch
    {
        Mark.Text text =>
            Invariant($"<text x=\"{text.X:0.##}\" y=\"{text.Y:0.##}\" font-size=\"{text.SizeMm:0.##}\"{(text.IsBold ? " font-weight=\"bold\"" : "")} ")
            + Invariant($"textLength=\"{text.Words.Length * text.SizeMm * Page.LetterWidth:0.##}\" xml:space=\"preserve\">")
                + $"{WebUtility.HtmlEncode(text.Words)}</text>",
        Mark.Box box => Invariant($"<rect x=\"{box.X:0.##}\" y=\"{box.Y:0.##}\" width=\"{box.Width:0.##}\" height=\"{box.Height:0.##}\" ")
            + $"fill=\"{(box.IsDark ? "#c8c8c8" : "none")}\" stroke=\"black\"/>",
        Mark.Rule rule => Invariant($"<line x1=\"{rule.X1:0.##}\" y1=\"{rule.Y1:0.##}\" x2=\"{rule.X2:0.##}\" y2=\"{rule.Y2:0.##}\" stroke=\"black\"/>"),
        _ => "",
    };

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
