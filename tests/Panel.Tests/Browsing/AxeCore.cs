using System.Diagnostics;
using System.Text.Json;
using Microsoft.Playwright;

namespace Panel.Tests;

/// <summary>The accessibility checker axe-core, fetched by npm when a test needs it and kept nowhere.</summary>
internal static class AxeCore
{
    private const string Package = "axe-core@4.14.1";

    private static readonly TimeSpan LongestFetch = TimeSpan.FromMinutes(2);
    private static readonly Lazy<Task<string>> Script = new(FetchAsync);

    /// <summary>Why it cannot be had, in words; null where it can.</summary>
    public static string? IsMissingBecause { get; } =
        Environment.GetEnvironmentVariable("CI") == "true" || Paths().Any(folder => File.Exists(Path.Combine(folder, "npm")))
        ? Chromium.IsMissingBecause
        : "It needs npm, which fetches the accessibility checker.";

    /// <summary>What is wrong with a page by WCAG 2.2, levels A and AA: each serious or critical finding in a line.</summary>
    public static async Task<IReadOnlyList<string>> SeriousAsync(IPage page)
    {
        await page.EvaluateAsync(await Script.Value);
        var found = await page.EvaluateAsync<JsonElement>("""
            async () => {
                const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
                const { violations, passes } = await axe.run(document, { runOnly: tags });
                const places = nodes => nodes.map(node => node.target.join(' ')).slice(0, 5).join(', ');
                return { passes: passes.length, violations: violations.map(({ id, impact, nodes }) => ({ id, impact, at: places(nodes) })) };
            }
            """);
        Assert.True(found.GetProperty("passes").GetInt32() > 5, "The checker looked at nothing.");
        return [.. found.GetProperty("violations").EnumerateArray()
            .Where(finding => finding.GetProperty("impact").GetString() is "serious" or "critical")
            .Select(finding => $"{finding.GetProperty("impact")}: {finding.GetProperty("id")} at {finding.GetProperty("at")}")];
    }

    private static async Task<string> FetchAsync()
    {
        var folder = Directory.CreateTempSubdirectory("axe-");
        try
        {
            using var npm = Process.Start(new ProcessStartInfo("npm",
                ["install", "--ignore-scripts", "--no-audit", "--no-fund", "--no-save", "--prefix", folder.FullName, Package])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            })!;
            var (output, error) = (npm.StandardOutput.ReadToEndAsync(), npm.StandardError.ReadToEndAsync());
            await npm.WaitForExitAsync().WaitAsync(LongestFetch);
            Assert.True(npm.ExitCode == 0, $"npm: {await output}{await error}");
            return await File.ReadAllTextAsync(Path.Combine(folder.FullName, "node_modules", "axe-core", "axe.min.js"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string[] Paths() => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
}

/// <summary>A test that needs the accessibility checker, and the browser.</summary>
internal sealed class AxeFactAttribute : FactAttribute
{
    public AxeFactAttribute() => Skip = AxeCore.IsMissingBecause;
}
