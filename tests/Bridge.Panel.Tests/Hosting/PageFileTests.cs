using System.Net;
using System.Text.RegularExpressions;

namespace Bridge.Panel.Tests;

public sealed partial class PageFileTests
{
    [Fact]
    public async Task The_page_is_served_and_fetches_nothing_from_elsewhere()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page(key: "");
        var index = await page.GetAsync("/");
        Assert.Equal("text/html", index.Content.Headers.ContentType?.MediaType);
        var root = Path.Combine(Vectors.Root, "src", "Bridge.Panel", "Page");
        foreach (var file in Directory.EnumerateFiles(root, "*", SearchOption.AllDirectories))
        {
            var path = Path.GetRelativePath(root, file).Replace('\\', '/');
            var answer = await page.GetAsync($"/{path}");
            Assert.True(answer.StatusCode == HttpStatusCode.OK, path);
            Assert.Equal(await File.ReadAllBytesAsync(file), await answer.Content.ReadAsByteArrayAsync());
            var addresses = Elsewhere().Matches(await File.ReadAllTextAsync(file)).Select(match => match.Value);
            Assert.DoesNotContain(addresses, address => address != "http://www.w3.org"); // the name of a vocabulary, which nobody fetches
        }
    }

    [Fact]
    public async Task The_document_of_what_can_be_asked_names_every_path()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        var document = await ServedPanel.Json(await page.GetAsync("/api/openapi.json"));
        var paths = document.GetProperty("paths").EnumerateObject().Select(path => path.Name).ToList();
        foreach (var path in new[] { "/api/panel", "/api/job", "/api/job/layers/{layer}", "/api/job/records", "/api/job/file", "/api/checklist", "/api/run",
            "/api/run/command", "/api/hand/command", "/api/hand/jog", "/api/hand/rest", "/api/controls", "/api/runs", "/api/events" })
            Assert.Contains(path, paths);
    }

    [Fact]
    public async Task Eight_pages_are_let_in_and_no_more()
    {
        await using var panel = await ServedPanel.StartAsync();
        var streams = new List<(HttpClient Page, PageStream Events)>();
        for (var number = 0; number < ControlsDesk.MostPages; number++)
        {
            var page = panel.Page($"page{number}");
            var events = await PageStream.OpenAsync(page);
            await events.UntilLive(_ => true);
            streams.Add((page, events));
        }

        using var more = panel.Page("more");
        await ServedPanel.Problem(await more.GetAsync("/api/events"), HttpStatusCode.Conflict);
        foreach (var (page, events) in streams)
        {
            await events.DisposeAsync();
            page.Dispose();
        }
    }

    [Fact]
    public async Task A_quiet_program_is_heard_every_two_seconds()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        var first = (await events.UntilLive(_ => true)).GetProperty("seq").GetInt64();
        Assert.Equal(first, (await events.UntilLive(_ => true)).GetProperty("seq").GetInt64());
        Assert.True(events.Heard.First(heard => heard.Name == "controls").Data.GetProperty("holds").GetBoolean());
    }

    [GeneratedRegex(@"https?://[\w.-]+")]
    private static partial Regex Elsewhere();
}
