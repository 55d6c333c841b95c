using Microsoft.Playwright;

namespace Panel.Tests;

/// <summary>One browser for all tests; each test has a context of its own.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private const string Path = "/usr/bin/chromium";
    private const int Patience = 20_000; // ms, for a machine that has other things to do; what holds is seen at once

    private static readonly string[] Arguments =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private IBrowser? _plain;

    /// <summary>Why no browser can be had, in words; null where it can. On a build server it must be there.</summary>
    public static string? IsMissingBecause { get; } =
        File.Exists(Path) || Environment.GetEnvironmentVariable("CI") == "true" ? null : $"It needs a browser: Debian's package chromium, which has {Path}.";

    public async Task InitializeAsync()
    {
        if (IsMissingBecause is not null)
            return;
        Assertions.SetDefaultExpectTimeout(Patience);
        _playwright = await Playwright.CreateAsync();
        _browser = await LaunchAsync(Arguments);
    }

    public async Task DisposeAsync()
    {
        foreach (var browser in new[] { _browser, _plain }.OfType<IBrowser>())
            await browser.DisposeAsync();
        _playwright?.Dispose();
    }

    /// <summary>Another reader's browser: nothing is shared with the others.</summary>
    /// <param name="isPlain">Whether that browser has no WebGL.</param>
    public async Task<IBrowserContext> NewContextAsync(bool isPlain = false)
    {
        var browser = isPlain ? _plain ??= await LaunchAsync([.. Arguments, "--disable-3d-apis"]) : _browser!;
        var context = await browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = 1280, Height = 900 },
            ColorScheme = ColorScheme.Light,
            ReducedMotion = ReducedMotion.Reduce,
        });
        context.SetDefaultTimeout(Patience);
        return context;
    }

    private Task<IBrowser> LaunchAsync(string[] arguments) =>
        _playwright!.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = Path, Args = arguments });
}

/// <summary>Tests in a browser, one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<Chromium>
{
    public const string Name = "in a browser";
}

/// <summary>A test that needs the browser.</summary>
internal sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Chromium.IsMissingBecause;
}

/// <summary>The same for each of some data.</summary>
internal sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = Chromium.IsMissingBecause;
}
