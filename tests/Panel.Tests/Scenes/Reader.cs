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
    public static Task DropAsync(this IPage page, string name, string content) => page.DropAsync("new File([content], name)", name, content);

    /// <summary>Drops a file of so many octets 0.</summary>
    public static Task DropAsync(this IPage page, string name, int octets) => page.DropAsync("new File([new Uint8Array(content)], name)", name, octets);

    /// <summary>Drops a shape and plans it as it is.</summary>
    public static async Task PlanAsync(this IPage page, string name, string content)
    {
        await page.DropAsync(name, content);
        await page.Button("Plan it").ClickAsync();
        await Expect(page.Locator("#verdict")).ToBeVisibleAsync();
    }

    public static Task PlanStileAsync(this IPage page) => page.PlanAsync("stile.txt", File.ReadAllText(Scene("stile.txt")));

    /// <summary>Opens a job file and sees what the program says of it.</summary>
    public static async Task OpenJobAsync(this IPage page, string name, byte[] content)
    {
        await page.Locator("#file").SetInputFilesAsync(new FilePayload { Name = name, MimeType = "application/octet-stream", Buffer = content });
        await page.Button("Open it").ClickAsync();
        await Expect(page.Locator("#plan h2")).ToHaveTextAsync(name);
    }

    /// <summary>Gives a pass phrase at the entrance.</summary>
    public static async Task EnterAsync(this IPage page, string phrase)
    {
        await page.Locator("#phrase").FillAsync(phrase);
        await page.Button("Enter").ClickAsync();
    }

    /// <summary>A shape without order, of both heads: more records than the store of the quick gantry has room for.</summary>
    public static string Gravel()
    {
        var chance = new Random(20_261_126);
        var rows = Enumerable.Range(0, 16).Select(_ => string.Concat(Enumerable.Range(0, 16).Select(_ => ".AB"[chance.Next(3)]))).ToList();
        return string.Join('\n', [.. rows, "---", .. rows.Select(row => row.Replace('A', 'x').Replace('B', 'A').Replace('x', 'B'))]);
    }

    /// <summary>Begins a dry run and waits until it works.</summary>
    public static async Task DryRunAsync(this IPage page, string speed = "in real time")
    {
        await page.Locator("#speed").SelectOptionAsync(new SelectOptionValue { Label = speed });
        await page.Button("Dry run").ClickAsync();
        if (speed == "in real time")
            await Expect(page.State()).ToHaveTextAsync("Execute");
    }

    public static string Scene(string file) => Path.Combine(Bridge.Tests.Vectors.Root, "tests", "Panel.Tests", "Scenes", file);

    private static async Task DropAsync(this IPage page, string file, string name, object content)
    {
        var dropped = await page.EvaluateHandleAsync(
            $"([name, content]) => {{ const data = new DataTransfer(); data.items.add({file}); return data; }}", new[] { name, content });
        await page.Locator("#drop").DispatchEventAsync("drop", new { dataTransfer = dropped });
    }
}
