using System.Text;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Pages as the bytes of a file: PDF, SVG or HTML, by the ending of its name.</summary>
public static class PageFile
{
    /// <summary>The endings that are known.</summary>
    public const string Endings = ".pdf, .svg or .html";

    /// <summary>Writes pages, at least one.</summary>
    /// <exception cref="RefusedException">The name has another ending.</exception>
    public static byte[] Of(string path, string title, IReadOnlyList<Page> pages) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".pdf" => PdfPages.Of(title, pages),
        ".svg" => Encoding.UTF8.GetBytes(SvgPages.Of(pages)),
        ".html" => Encoding.UTF8.GetBytes(HtmlPages.Of(title, pages)),
        _ => throw Refused(path),
    };

    /// <summary>Refuses a name with another ending, before any work.</summary>
    /// <exception cref="RefusedException">It has one.</exception>
    public static void Check(string path)
    {
        if (Path.GetExtension(path).ToLowerInvariant() is not (".pdf" or ".svg" or ".html"))
            throw Refused(path);
    }

    private static RefusedException Refused(string path) =>
        new(path, Path.GetExtension(path) is { Length: > 0 } ending ? $"the ending {ending}" : "no ending", Endings, "Choose another name.");
}
