using System.Net;

namespace Bridge.Layouts;

/// <summary>Pages as one HTML file that needs no other, each on a sheet of its own when it is printed.</summary>
internal static class HtmlPages
{
    public static string Of(string title, IReadOnlyList<Page> pages) => $$"""
        <!DOCTYPE html>
        <html lang="en">
        <head>
        <meta charset="utf-8">
        <title>{{WebUtility.HtmlEncode(title)}}</title>
        <style>
        @page { size: A4; margin: 0 }
        body { margin: 0; background: #ddd }
        svg { display: block; margin: 4mm auto; max-width: 100%; break-after: page }
        @media print { body { background: none } svg { margin: 0 } }
        </style>
        </head>
        <body>
        {{string.Concat(pages.Select(SvgPages.Of))}}</body>
        </html>

        """;
}
