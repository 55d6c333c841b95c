using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>Two pages: one holds the controls, the other watches and may stop; both hand the controls over.</summary>
[Collection(BrowserTests.Name)]
public class SharingTests(Chromium browser)
{
    [BrowserFact]
    public async Task The_controls_go_to_another_page_only_when_it_asks_and_the_holder_gives()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var (first, second) = (await panel.OpenAsync(), await panel.OpenAsync());
        await first.PlanStileAsync();
        await Expect(second.Locator("#holder")).ToContainTextAsync("This page watches");
        await Expect(second.Button("Dry run")).ToBeDisabledAsync();

        await second.Button("Ask for the controls").ClickAsync();
        await first.Button("Keep them").ClickAsync();
        await second.Button("Ask for the controls").ClickAsync();
        await first.Button("Give them").ClickAsync();
        await Expect(second.Locator("#holder")).ToContainTextAsync("This page has the controls");
        await Expect(second.Button("Dry run")).ToBeEnabledAsync();
        await Expect(first.Button("Dry run")).ToBeDisabledAsync();
    }

    [BrowserFact]
    public async Task A_page_that_only_watches_sees_the_run_and_may_hold_and_stop_it_but_not_let_it_go_on()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var (first, second) = (await panel.OpenAsync(), await panel.OpenAsync());
        await first.PlanStileAsync();
        await first.DryRunAsync();
        await Expect(second.State()).ToHaveTextAsync("Execute");
        await second.StopButton("Hold").ClickAsync();
        await Expect(first.State()).ToHaveTextAsync("Held");
        await Expect(second.Locator("#prompt")).ToBeVisibleAsync();
        await Expect(second.Button("Go on (Unhold)")).ToBeDisabledAsync();
        await Expect(first.Button("Go on (Unhold)")).ToBeEnabledAsync();
        await second.StopButton("Stop").ClickAsync();
        await Expect(first.State()).ToHaveTextAsync("Stopped");
    }
}
