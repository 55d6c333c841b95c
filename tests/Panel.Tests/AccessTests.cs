using Microsoft.Playwright;

namespace Panel.Tests;

/// <summary>Every place and state of the page, for all readers and on all screens.</summary>
[Collection(BrowserTests.Name)]
public class AccessTests(Chromium browser)
{
    // Null where there is nothing to stop yet: at the entrance.
    private const string PlacesOfStops = """
        () => document.getElementById('band').hidden ? null : ['hold', 'stop', 'abort'].map(id => {
            const { x, y } = document.getElementById(id).getBoundingClientRect();
            return `${Math.round(x)},${Math.round(y)}`;
        }).join(' ')
        """;

    private static readonly (int Width, int Height)[] Sizes = [(360, 740), (768, 1024), (1920, 1080)];

    [AxeFact]
    public async Task No_place_or_state_has_a_serious_finding_of_WCAG_in_light_or_dark()
    {
        await using var panel = await ServedPanel.StartAsync(browser, port: "bench-port");
        var page = await panel.OpenAsync();
        var findings = new List<string>();
        await Tour.WalkAsync(panel, page, async name =>
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                await page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = scheme });
                findings.AddRange((await AxeCore.SeriousAsync(page)).Select(finding => $"{name}, {scheme}: {finding}"));
            }
        });
        Assert.Empty(findings);
    }

    [AxeFact]
    public async Task The_checker_finds_a_planted_defect()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.EvaluateAsync("() => document.querySelector('label[for=words]').remove()");
        Assert.Contains(await AxeCore.SeriousAsync(page), finding => finding.Contains("#words", StringComparison.Ordinal));
    }

    [BrowserFact]
    public async Task On_no_screen_from_360_pixels_on_does_the_page_reach_over_the_edge_or_hide_a_stop()
    {
        await using var panel = await ServedPanel.StartAsync(browser, port: "bench-port");
        var page = await panel.OpenAsync();
        var shots = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "screens")).FullName;
        var over = new List<string>();
        var places = new Dictionary<int, List<string>>();
        await Tour.WalkAsync(panel, page, async name =>
        {
            foreach (var (width, height) in Sizes)
            {
                await page.SetViewportSizeAsync(width, height);
                await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(shots, $"{name.Replace(' ', '-')}-{width}.png") });
                if (await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - innerWidth") > 0)
                    over.Add($"{name} at {width}");
                places.TryAdd(width, []);
                if (await page.EvaluateAsync<string?>(PlacesOfStops) is { } stops)
                    places[width].Add(stops);
            }
        });
        Assert.Empty(over);
        Assert.All(places, width => Assert.Single(width.Value.Distinct()));
    }
}
