using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>Every place and state of the page, one after the other.</summary>
internal static class Tour
{
    /// <summary>Walks, and calls at each stop with its name.</summary>
    public static async Task WalkAsync(ServedPanel panel, IPage page, Func<string, Task> stop)
    {
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
}
