using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>What a person does on the page, by the words that stand on it.</summary>
internal static class Reader
{
    public static ILocator Button(this IPage page, string name) =>
        page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = name, Exact = true });

    public static ILocator State(this IPage page) => page.Locator("#state");

    public static ILocator StopButton(this IPage page, string command) => page.Locator($".stop[data-command={command}]");

    /// <summary>Drops a file on the page, as from a window of files.</summary>
    public static async Task DropAsync(this IPage page, string name, string content)
    {
        var dropped = await page.EvaluateHandleAsync(
            """([name, content]) => { const data = new DataTransfer(); data.items.add(new File([content], name)); return data; }""", new[] { name, content });
        await page.Locator("#drop").DispatchEventAsync("drop", new { dataTransfer = dropped });
    }

    /// <summary>Drops a shape and plans it as it is.</summary>
    public static async Task PlanAsync(this IPage page, string name, string content)
    {
        await page.DropAsync(name, content);
        await page.Button("Plan it").ClickAsync();
        await Expect(page.Locator("#verdict")).ToBeVisibleAsync();
    }

    public static Task PlanStileAsync(this IPage page) => page.PlanAsync("stile.txt", File.ReadAllText(Scene("stile.txt")));

    /// <summary>Begins a dry run and waits until it works.</summary>
    public static async Task DryRunAsync(this IPage page, string speed = "in real time")
    {
        await page.Locator("#speed").SelectOptionAsync(new SelectOptionValue { Label = speed });
        await page.Button("Dry run").ClickAsync();
        if (speed == "in real time")
            await Expect(page.State()).ToHaveTextAsync("Execute");
    }

    public static string Scene(string file) => Path.Combine(Bridge.Tests.Vectors.Root, "tests", "Panel.Tests", "Scenes", file);
}
