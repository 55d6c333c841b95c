using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>From a file to a plan, and what the page says of files that are no shapes.</summary>
[Collection(BrowserTests.Name)]
public class PlanningTests(Chromium browser)
{
    [BrowserFact]
    public async Task A_dropped_file_is_planned_by_its_options_dry_run_to_the_end_and_its_report_opened()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.DropAsync("stile.txt", await File.ReadAllTextAsync(Reader.Scene("stile.txt")));
        await page.GetByLabel("Place of its corner").FillAsync("2,1");
        await page.Button("Plan it").ClickAsync();
        await Expect(page.Locator("#verdict")).ToHaveTextAsync("Proved, and it fits the store");
        await Expect(page.Locator("#cells")).ToHaveAttributeAsync("aria-label", "Layer 0 from above: 60 cells, head a 48, head b 12");

        await page.DryRunAsync("as fast as it can");
        await Expect(page.Locator("#ended")).ToContainTextAsync("The job was executed to its end");
        await Expect(page.State()).ToHaveTextAsync("Complete");
        await Expect(page.Locator(".progress")).ToHaveAttributeAsync("aria-valuenow", "100");

        await page.Button("Look at the record").ClickAsync();
        await Expect(page.Locator(".past-run[open] img").First).Not.ToHaveJSPropertyAsync("naturalWidth", 0);
        await Expect(page.Locator(".past-run[open] img")).ToHaveCountAsync(2);
        var report = await page.Context.RunAndWaitForPageAsync(() => page.Button("Open its report").ClickAsync());
        await Expect(report.Locator("body")).ToContainTextAsync(await page.Locator(".past-run[open] summary b").InnerTextAsync());
        await Expect(report.Locator("img").First).Not.ToHaveJSPropertyAsync("naturalWidth", 0);
        Assert.DoesNotContain("key", report.Url, StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task Each_layer_and_the_solid_are_shown_and_a_cut_takes_the_upper_layers_away()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await page.GetByRole(AriaRole.Option, new() { Name = "layer 1, 36 cells", Exact = false }).ClickAsync();
        await Expect(page.Locator("#cells")).ToHaveAttributeAsync("aria-label", "Layer 1 from above: 36 cells, head a 24, head b 12");

        await page.Button("Solid").ClickAsync();
        await Expect(page.Locator("#solid-canvas")).ToHaveAttributeAsync("data-drawn", new System.Text.RegularExpressions.Regex("."));
        var whole = await page.Locator("#solid-canvas").ScreenshotAsync();
        await page.GetByLabel("Cut above layer").FillAsync("0");
        await page.WaitForTimeoutAsync(200);
        Assert.NotEqual(whole, await page.Locator("#solid-canvas").ScreenshotAsync());
    }

    [BrowserFact]
    public async Task A_shape_that_does_not_fit_the_store_is_shown_with_what_would_help_and_cannot_be_run()
    {
        await using var panel = await ServedPanel.StartAsync(
            browser, change: machine => machine.Replace("store_bytes = 256", "store_bytes = 9", StringComparison.Ordinal));
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await Expect(page.Locator("#verdict")).ToContainTextAsync("It does not fit");
        await Expect(page.Locator("#plan")).ToContainTextAsync("What would help");
        await Expect(page.Button("Dry run")).ToBeDisabledAsync();
    }

    [BrowserFact]
    public async Task A_wrong_file_is_refused_with_the_place_and_what_to_do_and_the_job_at_hand_stays()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await page.DropAsync("letter.txt", "AAA\nAXA\n");
        await page.Button("Plan it").ClickAsync();
        await Expect(page.Locator("#trouble")).ToContainTextAsync("line 2");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("Allowed");
        await Expect(page.Locator("#plan h2")).ToHaveTextAsync("stile.txt");

        await page.Button("Put away").ClickAsync();
        await Expect(page.Locator("#trouble")).ToBeEmptyAsync();
        await page.DropAsync("nothing.txt", "");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("The file is empty");
    }

    [BrowserFact]
    public async Task A_file_over_32_MiB_is_refused_with_its_length_and_none_of_it_is_sent()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        var posts = 0;
        page.Request += (_, request) => posts += request.Method == "POST" ? 1 : 0;
        await page.DropAsync("mountain.stl", (32 << 20) + 1);
        await Expect(page.Locator("#trouble")).ToContainTextAsync("The file is too large");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("33\u202f554\u202f433 bytes");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("up to 33\u202f554\u202f432 bytes");
        await Expect(page.Locator("#plan h2")).ToHaveTextAsync("stile.txt");
        Assert.Equal(0, posts);
    }

    [BrowserFact]
    public async Task A_name_that_is_markup_is_shown_as_it_is_written()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanAsync("<img src=x onerror=alert(1)>.txt", "AA\nAA\n");
        await Expect(page.Locator("#plan h2")).ToHaveTextAsync("<img src=x onerror=alert(1)>.txt");
        await Expect(page.Locator("#plan img")).ToHaveCountAsync(0);
    }

    [BrowserFact]
    public async Task Without_its_key_the_page_says_what_to_do_and_shows_nothing_else()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await (await browser.NewContextAsync()).NewPageAsync();
        await page.GotoAsync(panel.Address.GetLeftPart(UriPartial.Path));
        await Expect(page.Locator("#enter")).ToContainTextAsync("Open the address that the program printed");
        await Expect(page.Locator("#band")).ToBeHiddenAsync();

        await page.GotoAsync($"{panel.Address.GetLeftPart(UriPartial.Path)}#key=of-yesterday");
        await Expect(page.Locator("#enter-title")).ToHaveTextAsync("This address is of an earlier start");
        await page.Context.DisposeAsync();
    }

    [BrowserFact]
    public async Task The_key_is_taken_out_of_the_address_and_kept_for_the_tab()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        Assert.DoesNotContain("key", page.Url, StringComparison.Ordinal);
        await page.ReloadAsync();
        await Expect(page.Locator("#band")).ToBeVisibleAsync();
    }
}
