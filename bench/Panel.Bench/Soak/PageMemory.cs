using System.Globalization;
using Microsoft.Playwright;

namespace Panel.Bench;

/// <summary>What a page keeps, once its garbage is collected.</summary>
/// <param name="HeapMB">JavaScript's heap in use.</param>
/// <param name="BuffersMB">Array buffers, which are outside of it.</param>
/// <param name="Nodes">Nodes of documents, also those that are in none any more.</param>
/// <param name="Listeners">Listeners to events.</param>
/// <param name="GraphicsObjects">Buffers, arrays, programs, shaders and textures of WebGL that were made and not deleted.</param>
/// <param name="ProcessMB">Memory of the process that renders the page, by the system's count.</param>
internal sealed record PageMemory(double HeapMB, double BuffersMB, int Nodes, int Listeners, int GraphicsObjects, double ProcessMB)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{HeapMB,8:0.00} {BuffersMB,8:0.00} {Nodes,6} {Listeners,6} {GraphicsObjects,6} {ProcessMB,8:0.0}");
}

/// <summary>Reads it by the browser's protocol for tools.</summary>
internal sealed class PageMemoryReader(IPage page, ICDPSession tools, string process)
{
    /// <summary>The script that counts what WebGL makes; it comes before the page's own.</summary>
    public const string CountGraphics = """
        window.graphicsObjects = 0;
        for (const kind of ['Buffer', 'VertexArray', 'Program', 'Shader', 'Texture']) {
            for (const [verb, step] of [['create', 1], ['delete', -1]]) {
                const act = WebGL2RenderingContext.prototype[verb + kind];
                WebGL2RenderingContext.prototype[verb + kind] = function (...given) { window.graphicsObjects += step; return act.apply(this, given); };
            }
        }
        """;

    public static async Task<PageMemoryReader> OfAsync(IPage page)
    {
        var tools = await page.Context.NewCDPSessionAsync(page);
        await tools.SendAsync("Performance.enable");
        var browser = await page.Context.Browser!.NewBrowserCDPSessionAsync();
        var known = await browser.SendAsync("SystemInfo.getProcessInfo");
        // Of several the page is the one that has worked most: a spare one waits for the next page.
        var renderer = known!.Value.GetProperty("processInfo").EnumerateArray().Where(process => process.GetProperty("type").GetString() == "renderer")
            .MaxBy(process => process.GetProperty("cpuTime").GetDouble());
        return new PageMemoryReader(page, tools, $"/proc/{renderer.GetProperty("id").GetInt32().ToString(CultureInfo.InvariantCulture)}/status");
    }

    public async Task<PageMemory> ReadAsync()
    {
        await tools.SendAsync("HeapProfiler.collectGarbage");
        await tools.SendAsync("HeapProfiler.collectGarbage"); // what the first has freed may have held something else
        var metrics = (await tools.SendAsync("Performance.getMetrics"))!.Value.GetProperty("metrics").EnumerateArray()
            .ToDictionary(metric => metric.GetProperty("name").GetString()!, metric => metric.GetProperty("value").GetDouble());
        var heap = (await tools.SendAsync("Runtime.getHeapUsage"))!.Value;
        return new PageMemory(metrics["JSHeapUsedSize"] / 1e6, heap.TryGetProperty("backingStorageSize", out var buffers) ? buffers.GetDouble() / 1e6 : 0,
            (int)metrics["Nodes"], (int)metrics["JSEventListeners"], await page.EvaluateAsync<int>("() => window.graphicsObjects"), ProcessMB());
    }

    private double ProcessMB()
    {
        var line = File.ReadLines(process).First(line => line.StartsWith("RssAnon:", StringComparison.Ordinal));
        return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2], CultureInfo.InvariantCulture) / 1e3;
    }
}
