using System.Net;
using System.Net.Http.Json;
using Microsoft.Extensions.Time.Testing;

namespace Bridge.Panel.Tests;

public sealed class PastRunsTests
{
    [Fact]
    public async Task A_run_is_listed_with_its_pictures_and_its_report_opens_in_a_window_of_its_own()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        var name = await OneRun(page);
        var run = Assert.Single((await ServedPanel.Json(await page.GetAsync("/api/runs"))).GetProperty("runs").EnumerateArray());
        var picture = run.GetProperty("pictures")[0].GetString();
        var png = await page.GetByteArrayAsync($"/api/runs/{name}/pictures/{picture}");
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], png[..4]);

        var ticket = await ServedPanel.Json(await page.PostAsJsonAsync($"/api/runs/{name}/ticket", new { }));
        using var window = panel.Page(page: null, key: "");
        var report = await window.GetAsync(ticket.GetProperty("path").GetString());
        Assert.Equal("text/html", report.Content.Headers.ContentType?.MediaType);
        Assert.Contains("sandbox", report.Headers.GetValues("Content-Security-Policy").Single());
        Assert.Contains(name, await report.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task A_name_leads_to_no_other_folder()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        var name = await OneRun(page);
        HttpStatusCode[] nothing =
            [HttpStatusCode.UnprocessableEntity, HttpStatusCode.NotFound, HttpStatusCode.BadRequest, HttpStatusCode.MethodNotAllowed];
        foreach (var path in new[] { "..", "%2e%2e", "..%2f..%2fetc", ".", "%00", name + "%2f..", "no-such-run" })
        {
            Assert.Contains((await page.GetAsync($"/api/runs/{path}/pictures/layer-000.png")).StatusCode, nothing);
            Assert.Contains((await page.PostAsJsonAsync($"/api/runs/{path}/ticket", new { })).StatusCode, nothing);
        }

        foreach (var file in new[] { "..%2fmachine.toml", "%2e%2e%2fsummary.json", "%2fetc%2fpasswd", "nothing.png" })
            Assert.Equal(HttpStatusCode.NotFound, (await page.GetAsync($"/api/runs/{name}/pictures/{file}")).StatusCode);
    }

    [Fact]
    public void A_ticket_is_good_for_a_minute_also_where_the_clock_is_set_back()
    {
        var folder = Directory.CreateTempSubdirectory("bridge-runs-");
        try
        {
            folder.CreateSubdirectory("a-run");
            var time = new FakeTimeProvider();
            var clock = new SetClock(time);
            var past = new PastRuns(folder.FullName, clock);
            var ticket = past.TicketFor("a-run");
            Assert.Throws<Jobs.RefusedException>(() => past.ReportOf(ticket)); // it is found, and is no run
            clock.Set = TimeSpan.FromHours(-1);
            time.Advance(TimeSpan.FromSeconds(61));
            Assert.Null(past.ReportOf(ticket));
            Assert.Null(past.ReportOf("never given"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<string> OneRun(HttpClient page)
    {
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        await ServedPanel.Json(await page.PostAsync("/api/job?example=kite.csv", null));
        await ServedPanel.Post(page, "/api/run", new { on = "mock", fast = true, measureLost = false });
        return (await events.UntilEnd()).GetProperty("run").GetProperty("name").GetString()!;
    }
}
