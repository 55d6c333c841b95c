using System.Globalization;
using System.Net;
using System.Text;

namespace Bridge.History;

/// <summary>A page as one HTML file that needs no other: no script, no picture elsewhere.</summary>
public static class HtmlPage
{
    private const double StripWidth = 1000;

    private const string Style = $$"""
        body { color: {{Colors.Ink}}; background: #fff; font: 15px/1.45 Georgia, serif; max-width: 62rem; margin: 2rem auto; padding: 0 1.2rem }
        h1 { font-size: 1.7rem; margin: 0 0 .3rem } h2 { font-size: 1.15rem; margin: 2rem 0 .5rem; border-bottom: 1px solid {{Colors.Rule}} }
        .lead { font-size: 1.1rem; margin: 0 0 1rem } .warning { border-left: 4px solid {{Colors.Warning}}; padding-left: .7rem }
        dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1.2rem; margin: .5rem 0 } dt { color: {{Colors.Faint}} }
        dd { margin: 0; overflow-wrap: anywhere }
        table { border-collapse: collapse; margin: .5rem 0; font-size: .92rem } th { text-align: left; color: {{Colors.Faint}}; font-weight: normal }
        th, td { padding: .15rem .9rem .15rem 0; border-bottom: 1px solid {{Colors.Rule}}; vertical-align: top; overflow-wrap: anywhere }
        .number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap }
        svg { width: 100%; height: auto; display: block; margin: .5rem 0 }
        .pictures { display: flex; flex-wrap: wrap; gap: 1rem } figure { margin: 0; max-width: 24rem } figure img { width: 100%; image-rendering: pixelated }
        figcaption { color: {{Colors.Faint}}; font-size: .9rem } svg text { font: 12px Georgia, serif; fill: {{Colors.Ink}} }
        @media print { body { margin: 0 } h2 { break-after: avoid } figure, tr { break-inside: avoid } }
        """;

    /// <summary>The whole file.</summary>
    public static string Of(Page page)
    {
        var html = new StringBuilder();
        html.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n");
        html.Append($"<title>{Text(page.Title)}</title>\n<style>\n{Style}\n</style>\n</head>\n<body>\n");
        html.Append($"<h1>{Text(page.Title)}</h1>\n<p class=\"lead\">{Text(page.Lead)}</p>\n");
        foreach (var section in page.Sections)
        {
            html.Append($"<h2>{Text(section.Title)}</h2>\n");
            foreach (var block in section.Blocks)
                Add(html, block);
        }

        return html.Append("</body>\n</html>\n").ToString();
    }

    private static void Add(StringBuilder html, Block block)
    {
        switch (block)
        {
            case Block.Words words:
                html.Append($"<p{(words.IsWarning ? " class=\"warning\"" : "")}>{Text(words.Text)}</p>\n");
                break;
            case Block.Facts facts:
                html.Append($"<dl>{string.Concat(facts.Rows.Select(row => $"<dt>{Text(row.Name)}</dt><dd>{Text(row.Value)}</dd>\n"))}</dl>\n");
                break;
            case Block.Table table:
                Add(html, table);
                break;
            case Block.Strip strip:
                Add(html, strip);
                break;
            case Block.Pictures pictures:
                html.Append("<div class=\"pictures\">");
                foreach (var (png, caption) in pictures.Each)
                    html.Append($"<figure><img alt=\"{Text(caption)}\" src=\"data:image/png;base64,{Convert.ToBase64String(png)}\">"
                        + $"<figcaption>{Text(caption)}</figcaption></figure>\n");
                html.Append("</div>\n");
                break;
            case Block.Chart chart:
                Add(html, chart);
                break;
        }
    }

    private static void Add(StringBuilder html, Block.Table table)
    {
        var numbers = table.Heads.Count - table.TextColumns;
        string Cell(string tag, string text, int column) =>
            $"<{tag}{(column > 0 && column < numbers ? " class=\"number\"" : "")}>{Text(text)}</{tag}>";
        html.Append($"<table>\n<tr>{string.Concat(table.Heads.Select((head, column) => Cell("th", head, column)))}</tr>\n");
        foreach (var row in table.Rows)
            html.Append($"<tr>{string.Concat(row.Select((text, column) => Cell("td", text, column)))}</tr>\n");
        html.Append("</table>\n");
    }

    private static void Add(StringBuilder html, Block.Strip strip)
    {
        var length = strip.Spans.Count == 0 ? 0 : strip.Spans[^1].Begins + strip.Spans[^1].Seconds;
        var scale = length > 0 ? StripWidth / length : 0;
        html.Append(CultureInfo.InvariantCulture, $"<svg viewBox=\"0 0 {StripWidth} 44\" role=\"img\" aria-label=\"Time line\">\n");
        foreach (var span in strip.Spans)
            html.Append(CultureInfo.InvariantCulture, $"<rect x=\"{span.Begins * scale:0.##}\" y=\"2\" width=\"{Math.Max(0.8, span.Seconds * scale):0.##}\" ")
                .Append(CultureInfo.InvariantCulture, $"height=\"{Height(span.Tint)}\" fill=\"{Colors.Of(span.Tint)}\">"
                    + $"<title>{Text(span.What)}</title></rect>\n");
        html.Append(CultureInfo.InvariantCulture, $"<text x=\"0\" y=\"42\">0 s</text>"
            + $"<text x=\"{StripWidth}\" y=\"42\" text-anchor=\"end\">{length:0.0} s</text></svg>\n");
    }

    // The height tells what the colour tells: work stands highest.
    internal static int Height(Tint tint) => tint switch { Tint.Work => 26, Tint.Trouble => 20, Tint.Hold => 14, _ => 8 };

    private static void Add(StringBuilder html, Block.Chart chart)
    {
        var scale = new ChartScale(chart, StripWidth, 120);
        html.Append(CultureInfo.InvariantCulture, $"<svg viewBox=\"-60 -24 {StripWidth + 120} 160\" role=\"img\" aria-label=\"{Text(chart.Title)}\">\n");
        html.Append($"<text x=\"-60\" y=\"-10\">{Text(chart.Title)}</text>\n");
        foreach (var (name, value) in scale.Lines)
            html.Append(CultureInfo.InvariantCulture, $"<line x1=\"0\" x2=\"{StripWidth}\" y1=\"{scale.Y(value):0.#}\" y2=\"{scale.Y(value):0.#}\" ")
                .Append(CultureInfo.InvariantCulture, $"stroke=\"{(name == "mean" ? Colors.Faint : Colors.Warning)}\" "
                    + $"stroke-dasharray=\"{(name == "mean" ? "1 0" : "6 4")}\"/>")
                .Append(CultureInfo.InvariantCulture, $"<text x=\"{StripWidth + 4}\" y=\"{scale.Y(value) + 4:0.#}\">{name} {value:0.##}</text>\n");
        html.Append(CultureInfo.InvariantCulture, $"<polyline fill=\"none\" stroke=\"{Colors.Value}\" points=\"")
            .AppendJoin(' ', chart.Points.Select((value, index) => FormattableString.Invariant($"{scale.X(index):0.#},{scale.Y(value):0.#}"))).Append("\"/>\n");
        for (var index = 0; index < chart.Points.Count; index++)
            html.Append(Mark(scale, index, chart.Points[index]));
        html.Append("</svg>\n");
    }

    // A point beyond a limit is a cross, not only of another colour.
    private static string Mark(ChartScale scale, int index, double value)
    {
        var (x, y) = (scale.X(index), scale.Y(value));
        return scale.IsBeyond(value)
            ? string.Create(CultureInfo.InvariantCulture, $"<path d=\"M{x - 5:0.#} {y - 5:0.#}l10 10m0-10l-10 10\" stroke=\"{Colors.Warning}\" "
                + $"stroke-width=\"2.5\"><title>{value:0.###}</title></path>\n")
            : FormattableString.Invariant($"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"3.5\" fill=\"{Colors.Value}\"><title>{value:0.###}</title></circle>\n");
    }

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
