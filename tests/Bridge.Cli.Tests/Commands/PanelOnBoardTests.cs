using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Bridge.Panel.Tests;

namespace Bridge.Cli.Tests;

/// <summary>The panel on a real port: the firmware's core at the other end of a pseudo-terminal, and what a page is told.</summary>
public sealed partial class PanelOnBoardTests : IDisposable
{
    private const string Tile = "AAAA\nAAAA\nAAAA\nAAAA\n"; // 16 cells

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NativeBoardFact]
    public async Task A_page_plans_answers_tries_the_e_stop_and_runs_a_job_on_the_board_to_its_end()
    {
        using var board = await NativeBoard.Start();
        using var panel = await StartAsync(board, seconds: 0.02);
        using var page = Page(panel);
        await using var events = await PageStream.OpenAsync(page);
        await RunAsync(board, page, events);
        var end = await events.UntilEnd();
        Assert.Equal("Complete", EndOf(end).GetProperty("outcome").GetString());
        Assert.Equal(16, (await board.Look()).Worked);
        panel.Signal("INT");
        Assert.Equal(0, (await panel.End()).ExitCode);
    }

    [NativeBoardFact]
    public async Task A_board_that_goes_in_mid_run_is_told_to_the_page_with_what_to_do_and_the_panel_goes_on()
    {
        using var board = await NativeBoard.Start();
        using var panel = await StartAsync(board, seconds: 1);
        using var page = Page(panel);
        await using var events = await PageStream.OpenAsync(page);
        await RunAsync(board, page, events);
        await events.UntilLive(live => live.GetProperty("run").GetProperty("cells").GetInt64() >= 2);
        File.Delete(Port);
        board.Kill();
        var end = EndOf(await events.UntilEnd());
        Assert.Equal("LineLost", end.GetProperty("outcome").GetString());
        Assert.Contains("e-stop", $"{end}");
        var again = await page.PostAsJsonAsync("/api/run", await WishAsync(page));
        for (var tries = 0; again.StatusCode == HttpStatusCode.Conflict && tries < 100; tries++) // the end is told a moment before the port is let go
        {
            await Task.Delay(100);
            again = await page.PostAsJsonAsync("/api/run", await WishAsync(page));
        }

        Assert.Equal(HttpStatusCode.ServiceUnavailable, again.StatusCode);
        Assert.Contains(Port, await again.Content.ReadAsStringAsync());
        panel.Signal("INT");
        Assert.Equal(0, (await panel.End()).ExitCode);
    }

    // A name of the test's own: the terminal's number goes to the next one who asks for a terminal, as soon as the board is gone.
    private string Port => Path.Combine(_folder.Path, "board");

    private async Task<BridgeProcess> StartAsync(NativeBoard board, double seconds)
    {
        File.CreateSymbolicLink(Port, board.PortName);
        var panel = BridgeProcess.Start(_folder.Path, "panel", "--machine", _folder.QuickBoard(seconds), "--device", Port);
        await panel.Says("Ctrl-C ends.");
        return panel;
    }

    private static HttpClient Page(BridgeProcess panel)
    {
        var address = Address().Match(panel.Output);
        var page = new HttpClient { BaseAddress = new Uri(address.Groups["page"].Value) };
        page.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", address.Groups["key"].Value);
        page.DefaultRequestHeaders.Add("Bridge-Page", "one");
        return page;
    }

    // As a careful person does: plans, answers each question, tries the e-stop.
    private static async Task RunAsync(NativeBoard board, HttpClient page, PageStream events)
    {
        await events.UntilLive(_ => true);
        using var shape = new ByteArrayContent(Encoding.UTF8.GetBytes(Tile));
        shape.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        (await page.PostAsync("/api/job?name=tile.txt", shape)).EnsureSuccessStatusCode();
        (await page.PostAsJsonAsync("/api/run", await WishAsync(page))).EnsureSuccessStatusCode();
        await events.UntilTold("Press the e-stop now");
        await board.Do("e-stop open");
        await events.UntilTold("Seen open.");
        await board.Do("e-stop closed");
    }

    private static async Task<object> WishAsync(HttpClient page)
    {
        var items = (await page.GetFromJsonAsync<JsonElement>("/api/checklist")).GetProperty("items").EnumerateArray();
        return new { on = "device", fast = false, @operator = "Ada", answers = items.Select(item => item.GetProperty("id").GetString()), measureLost = false };
    }

    private static JsonElement EndOf(JsonElement live) => live.GetProperty("run").GetProperty("end");

    [GeneratedRegex(@"(?<page>http://127\.0\.0\.1:\d+/)#key=(?<key>[\w-]+)")]
    private static partial Regex Address();
}
