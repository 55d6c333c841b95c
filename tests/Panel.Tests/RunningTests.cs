using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>A run in sight: what goes wrong in it, what a person does, and a page that is loaded again.</summary>
[Collection(BrowserTests.Name)]
public class RunningTests(Chromium browser)
{
    // As where a radio link fades: the connection stands, and nothing comes through it.
    private const string SilentStream = """
        const fetchNow = window.fetch;
        window.fetch = async (path, settings) => {
            const response = await fetchNow(path, settings);
            if (path !== '/api/events') return response;
            const fade = new TransformStream({ transform(octets, next) { if (!window.isSilent) next.enqueue(octets); } });
            return new Response(response.body.pipeThrough(fade), response);
        };
        """;

    [BrowserFact]
    public async Task An_e_stop_during_a_run_is_shown_at_once_with_why_and_what_to_do()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await page.DryRunAsync();
        panel.Devices.PressEStop();
        await Expect(page.State()).ToHaveTextAsync("Aborted");
        await Expect(page.Locator("#band")).ToHaveAttributeAsync("data-sign", "emergency");
        await Expect(page.Locator("#because")).ToContainTextAsync("the e-stop is pressed");
        await Expect(page.Locator("#ended")).ToBeVisibleAsync();
        await Expect(page.Locator("#spoken-now")).ToContainTextAsync("Aborted");
    }

    [BrowserFact]
    public async Task A_cut_cable_during_a_run_ends_it_with_words_and_the_work_done_so_far_stays_in_sight()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await page.DryRunAsync();
        await Expect(page.Locator(".progress")).Not.ToHaveAttributeAsync("aria-valuenow", "0");
        panel.Devices.CutCable();
        await Expect(page.Locator("#ended .verdict")).ToContainTextAsync("line", new() { IgnoreCase = true });
        await Expect(page.Locator("#cells")).ToHaveAttributeAsync("aria-label", new System.Text.RegularExpressions.Regex("of them worked"));
        await Expect(page.Locator("#past")).ToBeEmptyAsync();
    }

    [BrowserFact]
    public async Task A_wait_for_the_operator_asks_on_the_page_and_goes_on_when_it_is_done()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.OpenJobAsync("pause.job", panel.JobWithPause());
        await page.Locator("#speed").SelectOptionAsync("real");
        await page.Button("Dry run").ClickAsync();
        await Expect(page.Locator("#prompt")).ToContainTextAsync("The job waits for you");
        await Expect(page.State()).ToHaveTextAsync("Held");
        await page.Button("Done: go on (Unhold)").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Complete");
        await Expect(page.Locator("#prompt")).ToBeHiddenAsync();
    }

    [BrowserFact]
    public async Task A_held_run_stands_still_until_it_is_told_to_go_on_and_a_stop_ends_it()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        var done = await HeldInDryRunAsync(page);
        await Expect(page.StopButton("Hold")).ToBeDisabledAsync();
        Assert.Equal(done, await page.Locator(".done").InnerTextAsync());
        await page.Button("Go on (Unhold)").ClickAsync();
        await Expect(page.Locator(".done")).Not.ToHaveTextAsync(done);
        await page.StopButton("Stop").ClickAsync();
        await Expect(page.Locator("#ended")).ToBeVisibleAsync();
        await Expect(page.State()).ToHaveTextAsync("Stopped");
    }

    [BrowserFact]
    public async Task A_page_that_is_loaded_again_in_mid_run_shows_the_run_and_keeps_the_controls()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        var done = await HeldInDryRunAsync(page);
        await page.ReloadAsync();
        await Expect(page.State()).ToHaveTextAsync("Held");
        await Expect(page.Locator(".done")).ToHaveTextAsync(done);
        await Expect(page.Locator("#holder")).ToContainTextAsync("This page has the controls");
        await page.Button("Go on (Unhold)").ClickAsync();
        await Expect(page.Locator(".done")).Not.ToHaveTextAsync(done);
    }

    [BrowserFact]
    public async Task A_program_that_has_ended_is_told_as_the_past_and_nothing_can_be_pressed()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await panel.EndAsync();
        await Expect(page.Locator("#past")).ToContainTextAsync("What you see is past, since");
        await Expect(page.Locator("#past")).ToContainTextAsync("look at the machine");
        await Expect(page.State()).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^Was: "));
        foreach (var button in await page.Locator(".stop, #dry-run, #plan-it").AllAsync())
            await Expect(button).ToBeDisabledAsync();
    }

    [BrowserFact]
    public async Task A_stream_that_falls_silent_is_told_as_the_past_and_comes_back_by_itself()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync(before: SilentStream);
        await page.PlanStileAsync();
        await page.EvaluateAsync("() => { window.isSilent = true; }");
        await Expect(page.Locator("#past")).ToContainTextAsync("What you see is past");
        await Expect(page.Button("Dry run")).ToBeDisabledAsync();
        await page.EvaluateAsync("() => { window.isSilent = false; }");
        await Expect(page.Locator("#past")).ToBeEmptyAsync();
        await Expect(page.Button("Dry run")).ToBeEnabledAsync();
    }

    [BrowserFact]
    public async Task Before_a_real_machine_moves_each_question_is_asked_and_leaving_moves_nothing()
    {
        await using var panel = await ServedPanel.StartAsync(browser, port: "bench-port");
        var page = await panel.OpenAsync();
        await page.PlanStileAsync();
        await page.Button("Run on the machine …").ClickAsync();
        await page.GetByLabel("Who is at the machine?").FillAsync("Ada");
        await page.Button("To the first question").ClickAsync();
        await Expect(page.Locator("#checklist-title")).ToHaveTextAsync("Question 1 of 7");
        await page.Button("Leave: nothing moves").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Nothing runs");

        await page.Button("Run on the machine …").ClickAsync();
        await page.GetByLabel("Who is at the machine?").FillAsync("Ada");
        await page.Button("To the first question").ClickAsync();
        for (var question = 1; question <= 7; question++)
        {
            await Expect(page.Locator("#checklist-title")).ToHaveTextAsync($"Question {question} of 7");
            await page.Button("Yes").ClickAsync();
        }

        await page.Button("Run it on the machine").ClickAsync();
        await Expect(page.Locator("#prompt")).ToContainTextAsync("e-stop");
        panel.Devices.PressEStop();
        await Expect(page.Locator("#said-list")).ToContainTextAsync("elease");
        panel.Devices.ReleaseEStop();
        await Expect(page.State()).ToHaveTextAsync("Execute");
    }

    private static async Task<string> HeldInDryRunAsync(IPage page)
    {
        await page.PlanStileAsync();
        await page.DryRunAsync();
        await page.StopButton("Hold").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Held");
        return await page.Locator(".done").InnerTextAsync();
    }
}
