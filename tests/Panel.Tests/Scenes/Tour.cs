using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>Every place and state of the page, one after the other.</summary>
internal static class Tour
{
    /// <summary>Walks, and calls at each stop with its name.</summary>
    public static async Task WalkAsync(ServedPanel panel, IPage page, Func<string, Task> stop)
    {
        await EnterAsync(panel, page, stop);
        await stop("nothing");
        await page.Locator("#example").SelectOptionAsync("barn.stl");
        await stop("options");
        await page.PlanStileAsync();
        await stop("planned");
        await page.Button("Solid").ClickAsync();
        await Expect(page.Locator("#solid-canvas")).ToHaveAttributeAsync("data-drawn", new System.Text.RegularExpressions.Regex("."));
        await stop("solid");
        await page.Button("Layer").ClickAsync();
        await AskAsync(page, stop);
        await RunAsync(page, stop);
        await TroubleAsync(panel, page, stop);
        await ShareAsync(panel, page, stop);
        await page.Button("By hand").ClickAsync();
        await stop("by hand");
        await page.Button("Past runs").ClickAsync();
        await page.Locator(".past-run summary").First.ClickAsync();
        await Expect(page.Locator(".past-run[open] img").First).Not.ToHaveJSPropertyAsync("naturalWidth", 0);
        await stop("past runs");
        await page.Button("The work").ClickAsync();
        await page.DropAsync("letter.txt", "AAA\nAXA\n");
        await page.Button("Plan it").ClickAsync();
        await Expect(page.Locator("#trouble")).ToContainTextAsync("line 2");
        await stop("refused");
        await panel.EndAsync();
        await Expect(page.Locator("#past")).ToContainTextAsync("past");
        await stop("past");
        await page.Context.ClearCookiesAsync();
        await page.EvaluateAsync("() => sessionStorage.clear()");
    }

    private static async Task EnterAsync(ServedPanel panel, IPage page, Func<string, Task> stop)
    {
        await page.EvaluateAsync("() => sessionStorage.clear()");
        await page.ReloadAsync();
        await Expect(page.Locator("#enter")).ToBeVisibleAsync();
        await stop("entrance");
        await page.EnterAsync("six herons on a pier");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("Not the pass phrase");
        await stop("entrance refused");
        await page.EnterAsync(ServedPanel.Phrase);
        await Expect(page.Locator("#band")).ToBeVisibleAsync();
    }

    private static async Task AskAsync(IPage page, Func<string, Task> stop)
    {
        await page.Button("Run on the machine …").ClickAsync();
        await page.GetByLabel("Who is at the machine?").FillAsync("Ada");
        await page.Button("To the first question").ClickAsync();
        await stop("question");
        await page.Button("Leave: nothing moves").ClickAsync();
    }

    private static async Task RunAsync(IPage page, Func<string, Task> stop)
    {
        await page.DryRunAsync();
        await page.StopButton("Hold").ClickAsync();
        await Expect(page.State()).ToHaveTextAsync("Held");
        await stop("held");
        await page.StopButton("Stop").ClickAsync();
        await Expect(page.Locator("#ended")).ToBeVisibleAsync();
        await stop("stopped");
        await page.Button("Plan the next").ClickAsync();
        await page.DryRunAsync("as fast as it can");
        await Expect(page.State()).ToHaveTextAsync("Complete");
        await stop("complete");
        await page.Button("Plan the next").ClickAsync();
    }

    private static async Task TroubleAsync(ServedPanel panel, IPage page, Func<string, Task> stop)
    {
        await page.PlanAsync("gravel.txt", Reader.Gravel());
        await Expect(page.Locator("#verdict")).ToContainTextAsync("It does not fit");
        await stop("unfit");
        await page.OpenJobAsync("twice.job", panel.JobTwiceOver());
        await Expect(page.Locator("#verdict")).ToContainTextAsync("Not proved");
        await stop("not proved");
        await page.OpenJobAsync("pause.job", panel.JobWithPause());
        await page.Locator("#speed").SelectOptionAsync("real");
        await page.Button("Dry run").ClickAsync();
        await Expect(page.Locator("#prompt")).ToContainTextAsync("The job waits for you");
        await stop("prompt");
        panel.Devices.PressEStop();
        await Expect(page.State()).ToHaveTextAsync("Aborted");
        await Expect(page.Locator("#ended")).ToBeVisibleAsync();
        await stop("aborted");
        panel.Devices.ReleaseEStop();
        await page.Button("Plan the next").ClickAsync();
    }

    private static async Task ShareAsync(ServedPanel panel, IPage page, Func<string, Task> stop)
    {
        var other = await panel.OpenAsync();
        await other.Button("Ask for the controls").ClickAsync();
        await Expect(page.Button("Give them")).ToBeVisibleAsync();
        await stop("controls asked");
        await page.Button("Give them").ClickAsync();
        await Expect(page.Locator("#holder")).ToContainTextAsync("This page watches");
        await stop("watching");
        await page.Button("Ask for the controls").ClickAsync();
        await stop("asking");
        await other.Button("Give them").ClickAsync();
        await Expect(page.Locator("#holder")).ToContainTextAsync("This page has the controls");
        await other.CloseAsync();
    }
}
