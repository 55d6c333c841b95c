using Microsoft.Playwright;

namespace Panel.Bench;

/// <summary>Debian's Chromium without a window and without a graphics card, as the tests have it.</summary>
internal sealed class Browser(IPlaywright playwright, IBrowser browser) : IAsyncDisposable
{
    private const string Path = "/usr/bin/chromium";

    public static string? IsMissingBecause => File.Exists(Path) ? null : $"These figures need Debian's package chromium, which has {Path}.";

    public static async Task<Browser> StartAsync()
    {
        var playwright = await Playwright.CreateAsync();
        return new Browser(playwright, await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Path,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
                "--disable-sync",
            ],
        }));
    }

    /// <summary>A page that was never here before, with a script that comes before its own.</summary>
    public async Task<IPage> NewPageAsync(string? before = null)
    {
        var context = await browser.NewContextAsync(new BrowserNewContextOptions { ViewportSize = new ViewportSize { Width = 1280, Height = 900 } });
        if (before is not null)
            await context.AddInitScriptAsync(before);
        return await context.NewPageAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        playwright.Dispose();
    }
}
