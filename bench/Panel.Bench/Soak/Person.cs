using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Bench;

/// <summary>Who sits before the page in a soak: begins runs, looks about while they go on, and does what a job waits for.</summary>
internal sealed class Person(IPage page, SoakDevices devices)
{
    /// <summary>Goes on soon where the job waits; in the page, since that is sooner than any word from outside.</summary>
    public const string GoOn = """
        addEventListener('DOMContentLoaded', () => setInterval(() => {
            const done = document.getElementById('prompt-done');
            if (!document.getElementById('prompt').hidden && !done.disabled) done.click();
        }, 20));
        """;

    private const string Shape = "AAAA\nABBA\nABBA\nAAAA\n---\n....\n.BB.\n.BB.\n....\n";

    private const int Questions = 7;

    private static readonly Regex Anything = new(".");

    /// <summary>Opens a job and runs it on the machine, as far as it works.</summary>
    public async Task RunOnMachineAsync(byte[] job)
    {
        await PlanAsync("hours.job", job);
        await page.Locator("#run-it").ClickAsync();
        await page.Locator("#operator").FillAsync("Ada");
        await page.Locator("#checklist .main-deed").ClickAsync();
        for (var question = 1; question <= Questions; question++)
        {
            await Expect(page.Locator("#checklist-title")).ToContainTextAsync($"Question {question} ");
            await page.Locator("#checklist .main-deed").ClickAsync();
        }

        await page.Locator("#start-run").ClickAsync();
        await Expect(page.Locator("#prompt")).ToContainTextAsync("e-stop");
        devices.PressEStop();
        await Expect(page.Locator("#said-list")).ToContainTextAsync("elease");
        devices.ReleaseEStop();
        await Expect(page.Locator("#state")).ToHaveTextAsync("Execute");
    }

    /// <summary>Plans a small shape, runs it dry, and puts the run away.</summary>
    public async Task RunDryAsync()
    {
        await PlanAsync("tile.txt", System.Text.Encoding.UTF8.GetBytes(Shape));
        await page.Locator("#dry-run").ClickAsync();
        await Expect(page.Locator("#state")).ToHaveTextAsync("Complete");
        await page.Locator("#plan-next").ClickAsync();
        await Expect(page.Locator("#plan")).ToBeVisibleAsync();
    }

    /// <summary>Looks at the solid, at each layer, at the machine by hand and at a past run, and comes back to the work.</summary>
    public async Task LookAboutAsync()
    {
        await page.Locator("#whole").ClickAsync();
        await Expect(page.Locator("#solid-canvas")).ToHaveAttributeAsync("data-drawn", Anything);
        foreach (var turn in new[] { "left", "up", "near", "far", "home" })
            await page.Locator($"[data-turn={turn}]").ClickAsync();
        await page.Locator("#flat").ClickAsync();
        foreach (var rung in await page.Locator(".rung").AllAsync())
            await rung.ClickAsync();
        await page.Locator("#follow").ClickAsync();
        await page.Locator("[data-view=hand]").ClickAsync();
        await page.Locator("[data-view=runs]").ClickAsync();
        await page.Locator(".past-run summary").Last.ClickAsync();
        await Expect(page.Locator(".past-run[open] img").First).Not.ToHaveJSPropertyAsync("naturalWidth", 0);
        await page.Locator("[data-view=work]").ClickAsync();
    }

    private async Task PlanAsync(string name, byte[] content)
    {
        await page.Locator("#file").SetInputFilesAsync(new FilePayload { Name = name, MimeType = "application/octet-stream", Buffer = content });
        await page.Locator("#plan-it").ClickAsync();
        await Expect(page.Locator("#plan h2")).ToHaveTextAsync(name);
        await Expect(page.Locator("#dry-run")).ToBeEnabledAsync();
    }
}
