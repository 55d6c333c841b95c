using System.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>The page itself: files that are part of the program, each at its own name, and index.html at the root.</summary>
internal static class PageFiles
{
    private const string Prefix = "Page/";

    private static readonly Dictionary<string, string> Types = new()
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".svg"] = "image/svg+xml",
        [".png"] = "image/png",
    };

    public static void MapPageFiles(this IEndpointRouteBuilder app)
    {
        foreach (var resource in Assembly.GetExecutingAssembly().GetManifestResourceNames().Where(name => name.StartsWith(Prefix, StringComparison.Ordinal)))
        {
            var path = resource[Prefix.Length..].Replace('\\', '/');
            var content = Content(resource);
            Map(app, $"/{path}", content, Types[Path.GetExtension(path)]);
            if (path == "index.html")
                Map(app, "/", content, Types[".html"]);
        }
    }

    private static void Map(IEndpointRouteBuilder app, string path, byte[] content, string type) =>
        app.MapGet(path, () => Results.Bytes(content, type)).ExcludeFromDescription();

    private static byte[] Content(string resource)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(resource)!;
        var content = new byte[stream.Length];
        stream.ReadExactly(content);
        return content;
    }
}
