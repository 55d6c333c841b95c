using Bridge.Jobs;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Bench;

/// <summary>
/// Frames in a second while a solid of 256 x 256 x 64 cells is turned: a fluted vase, no two of whose layers are alike. Each frame is waited for to its last
/// pixel, which is read back.
/// </summary>
internal static class Turn
{
    private const int Side = 256;
    private const int Layers = 64;

    private const string TurnIt = """
        async () => {
            const canvas = document.getElementById('solid-canvas');
            const on = canvas.getContext('webgl2');
            const pixel = new Uint8Array(4);
            const ends = [];
            for (let frame = 0; frame < 121; frame++) {
                canvas.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight' }));
                await new Promise(requestAnimationFrame);
                on.readPixels(0, 0, 1, 1, on.RGBA, on.UNSIGNED_BYTE, pixel);
                ends.push(performance.now());
            }
            return ends.slice(1).map((end, index) => end - ends[index]);
        }
        """;

    public static async Task<IReadOnlyList<Figure>> MeasureAsync(Browser browser)
    {
        await using var served = await Served.StartAsync(Larger);
        var page = await browser.NewPageAsync();
        await page.GotoAsync(served.Address);
        await page.Locator("#file").SetInputFilesAsync(
            new FilePayload { Name = "vase.job", MimeType = "application/octet-stream", Buffer = Vase(served.Machine) });
        await page.Locator("#plan-it").ClickAsync();
        await page.Locator("#verdict").WaitForAsync(new LocatorWaitForOptions { Timeout = 90_000 });
        var began = await page.EvaluateAsync<double>("() => performance.now()");
        await page.Locator("#whole").ClickAsync();
        await Expect(page.Locator("#solid-canvas")).ToHaveAttributeAsync("data-drawn", new System.Text.RegularExpressions.Regex("."),
            new LocatorAssertionsToHaveAttributeOptions { Timeout = 120_000 });
        var made = await page.EvaluateAsync<double>("() => performance.now()") - began;
        var frames = await page.EvaluateAsync<double[]>(TurnIt);
        var rates = frames.Select(ms => 1000 / ms).ToList();
        var said = await page.Locator("#solid-words").InnerTextAsync();
        return [new Figure("turn, median", Figure.Quantile(rates, 0.5), "1/s", 30, rates.Min(), rates.Max(), IsLeast: true,
            Note: $"first seen {made / 1000:0.0} s after it is asked for; {said}")];
    }

    private static string Larger(string machine) => machine
        .Replace("axis_bits = 4", "axis_bits = 8", StringComparison.Ordinal)
        .Replace("store_bytes = 256", "store_bytes = 1000000", StringComparison.Ordinal)
        .Replace("cells = 16", $"cells = {Side}", StringComparison.Ordinal)
        .Replace("cells = 4", $"cells = {Layers}", StringComparison.Ordinal)
        .Replace("pitch_mm = 2", "pitch_mm = 1", StringComparison.Ordinal);

    // Each row of each layer, from wall to wall; the vase is hollow above its foot.
    private static byte[] Vase(Machine machine)
    {
        var records = new List<Record>();
        for (var layer = 0; layer < Layers; layer++)
        {
            var rises = layer > 0;
            for (var y = 0; y < Side; y++)
                foreach (var (from, cells) in Runs(layer, y))
                {
                    records.Add(Record.Row(machine.Width, Head.A, new Cell(from, y), heading: 0, cells, rises));
                    rises = false;
                }
        }

        records.Add(Record.End);
        return new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width, records)).ToBytes();
    }

    private static IEnumerable<(int From, int Cells)> Runs(int layer, int y)
    {
        for (int x = 0, begin = -1; x <= Side; x++)
        {
            var isWorked = x < Side && IsVase(layer, x, y);
            if (isWorked && begin < 0)
                begin = x;
            if (isWorked || begin < 0)
                continue;
            yield return (begin, x - begin);
            begin = -1;
        }
    }

    private static bool IsVase(int layer, int x, int y)
    {
        var (fromX, fromY) = (x - (Side - 1) / 2.0, y - (Side - 1) / 2.0);
        var (radius, angle) = (Math.Sqrt(fromX * fromX + fromY * fromY), Math.Atan2(fromY, fromX));
        return radius < 105 + 12 * Math.Sin(layer / 5.0) + 8 * Math.Sin(angle * 9 + layer / 9.0) && (layer < 6 || radius > 40);
    }
}
