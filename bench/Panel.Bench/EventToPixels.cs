using Microsoft.Playwright;
using Panel.Tests;
using static Microsoft.Playwright.Assertions;

namespace Panel.Bench;

/// <summary>
/// From a contact of the mock device, in real time, over its wire, the hand at the machine, the event stream and the page's scripts to the frame that shows
/// it. The e-stop's contact is opened and closed, since that is what a person waits for most.
/// </summary>
internal static class EventToPixels
{
    private const int Times = 100;
    private const int Seed = 7;

    private const string Watch = """
        window.watchLamp = () => new MutationObserver(() => {
            const words = document.querySelector('#hand .inputs li')?.textContent;
            if (words === window.lastWords) return;
            window.lastWords = words;
            requestAnimationFrame(() => setTimeout(() => { window.shownAt = performance.timeOrigin + performance.now(); }));
        }).observe(document.querySelector('#hand .inputs'), { subtree: true, childList: true, characterData: true });
        """;

    public static async Task<IReadOnlyList<Figure>> MeasureAsync(Browser browser)
    {
        SwiftDevices? devices = null;
        await using var served = await Served.StartAsync(devices: machine => devices = new SwiftDevices(machine));
        var page = await browser.NewPageAsync(Watch);
        await page.GotoAsync(served.Address);
        await page.Locator("[data-view=hand]").ClickAsync();
        await page.Locator("[data-deed=Connect]").ClickAsync();
        await Expect(page.Locator("#hand .inputs li").First).ToContainTextAsync("closed", new LocatorAssertionsToContainTextOptions { Timeout = 30_000 });
        await page.EvaluateAsync("() => window.watchLamp()");
        var (pauses, all) = (new Random(Seed), new List<double>());
        for (var time = 0; time < Times; time++)
        {
            await Task.Delay(pauses.Next(100, 300)); // at no fixed place between the looks at the device
            all.Add(await OnceAsync(devices!, page, isPressed: time % 2 == 0));
        }

        return [new Figure("event-to-pixels, 95 of 100", Figure.Quantile(all, 0.95), "ms", 150, all.Min(), all.Max(),
            Note: $"median {Figure.Quantile(all, 0.5):0} ms")];
    }

    private static async Task<double> OnceAsync(SwiftDevices devices, IPage page, bool isPressed)
    {
        await page.EvaluateAsync("() => { window.shownAt = 0; }");
        var at = (DateTimeOffset.UtcNow - DateTimeOffset.UnixEpoch).TotalMilliseconds;
        if (isPressed)
            devices.PressEStop();
        else
            devices.ReleaseEStop();
        await page.WaitForFunctionAsync("() => window.shownAt > 0");
        return await page.EvaluateAsync<double>("() => window.shownAt") - at;
    }
}
