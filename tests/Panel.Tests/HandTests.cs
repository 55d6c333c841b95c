using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>The machine by hand, and the whole by keyboard alone.</summary>
[Collection(BrowserTests.Name)]
public class HandTests(Chromium browser)
{
    [BrowserFact]
    public async Task An_axis_moves_while_its_button_is_held_and_rests_when_it_is_let_go()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await ReadyAsync(panel);
        var before = panel.Devices.Carriage();
        await page.Locator("[data-jog=right]").HoverAsync();
        await page.Mouse.DownAsync();
        await MovesAsync(page, panel, before);
        await page.Mouse.UpAsync();
        await RestsAsync(page, panel);
        Assert.True(panel.Devices.Carriage().X > before.X);
        Assert.Equal(before.Y, panel.Devices.Carriage().Y);
    }

    [BrowserFact]
    public async Task A_held_key_moves_and_it_rests_when_the_key_is_let_go_or_the_page_loses_sight()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await ReadyAsync(panel);
        await page.Locator("[data-jog=away]").FocusAsync();
        foreach (var release in new[] { () => page.Keyboard.UpAsync("ArrowUp"), () => page.EvaluateAsync("() => dispatchEvent(new Event('blur'))") })
        {
            var before = panel.Devices.Carriage();
            await page.Keyboard.DownAsync("ArrowUp");
            await MovesAsync(page, panel, before);
            await release();
            await RestsAsync(page, panel);
        }

        await page.Keyboard.UpAsync("ArrowUp");
    }

    [BrowserFact]
    public async Task Leave_that_is_late_on_the_network_moves_nothing_after_the_button_was_let_go()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await ReadyAsync(panel);
        List<IRoute> late = []; // on their way for as long as the test likes
        await page.RouteAsync("**/api/hand/jog", route =>
        {
            late.Add(route);
            return Task.CompletedTask;
        });
        await page.Locator("[data-jog=right]").HoverAsync();
        await page.Mouse.DownAsync();
        for (var looks = 0; looks < 200 && late.Count == 0; looks++)
            await page.WaitForTimeoutAsync(20);
        var rested = page.WaitForResponseAsync("**/api/hand/rest");
        await page.Mouse.UpAsync();
        await rested;
        var before = panel.Devices.Carriage();
        var answer = page.WaitForResponseAsync("**/api/hand/jog");
        foreach (var route in late)
            await route.ContinueAsync();
        Assert.Equal(409, (await answer).Status);
        await page.WaitForTimeoutAsync(300);
        Assert.Equal(before, panel.Devices.Carriage());
        await page.UnrouteAllAsync();
        await page.Mouse.DownAsync();
        await MovesAsync(page, panel, before);
        await page.Mouse.UpAsync();
        await RestsAsync(page, panel);
    }

    [BrowserFact]
    public async Task By_keyboard_alone_a_shape_is_planned_run_held_and_stopped()
    {
        await using var panel = await ServedPanel.StartAsync(
            browser, change: machine => machine.Replace("seconds_per_cell = 0.03", "seconds_per_cell = 0.3", StringComparison.Ordinal));
        var page = await panel.OpenAsync();
        await Expect(page.Locator("#words")).ToBeEnabledAsync();
        await TabToAsync(page, "words");
        await page.Keyboard.TypeAsync("HI");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#plan-it")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#verdict")).ToBeVisibleAsync();
        await TabToAsync(page, "speed");
        await page.Keyboard.TypeAsync("in real");
        await TabToAsync(page, "dry-run");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.State()).ToHaveTextAsync("Execute");
        await TabToAsync(page, "hold");
        await page.Keyboard.PressAsync("Space");
        await Expect(page.State()).ToHaveTextAsync("Held");
        await TabToAsync(page, "prompt-done");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.State()).Not.ToHaveTextAsync("Held");
        await TabToAsync(page, "stop");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#ended")).ToBeVisibleAsync();
    }

    // By Tab, and each place that it comes to shows that it has the focus.
    private static async Task TabToAsync(IPage page, string id)
    {
        for (var presses = 0; presses < 80; presses++)
        {
            await page.Keyboard.PressAsync("Tab");
            var (at, outline) = await FocusAsync(page);
            Assert.True(at == "" || outline, $"{at} does not show its focus");
            if (at == id)
                return;
        }

        Assert.Fail($"Tab does not come to {id}");
    }

    private static async Task<(string Id, bool IsSeen)> FocusAsync(IPage page)
    {
        var found = await page.EvaluateAsync<string[]>("""
            () => {
                const at = document.activeElement;
                const style = getComputedStyle(at);
                return [at === document.body ? '' : at.id || at.tagName, String(style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2)];
            }
            """);
        return (found[0], found[1] == "true");
    }

    private static async Task<IPage> ReadyAsync(ServedPanel panel)
    {
        var page = await panel.OpenAsync();
        await page.Button("By hand").ClickAsync();
        await page.Locator("[data-deed=Connect]").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Aborted");
        await page.Locator("[data-deed=Clear]").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Stopped");
        await page.Locator("[data-deed=Reset]").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Idle");
        return page;
    }

    private static async Task MovesAsync(IPage page, ServedPanel panel, (double X, double Y) before)
    {
        for (var looks = 0; looks < 200 && panel.Devices.Carriage() == before; looks++)
            await page.WaitForTimeoutAsync(20);
        Assert.NotEqual(before, panel.Devices.Carriage());
    }

    // Leave to move lasts 150 ms on the way to the program and 40 ms on the way to the machine, which then slows down.
    private static async Task RestsAsync(IPage page, ServedPanel panel)
    {
        await page.WaitForTimeoutAsync(500);
        var at = panel.Devices.Carriage();
        await page.WaitForTimeoutAsync(300);
        Assert.Equal(at, panel.Devices.Carriage());
    }
}
