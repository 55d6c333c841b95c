using System.Net;
using System.Net.Http.Json;
using System.Text;
using Microsoft.Extensions.Time.Testing;

namespace Bridge.Panel.Tests;

/// <summary>
/// What other pages in the same browser, and other programs, can do: nothing. After the kinds of attack on local web services that OWASP lists: forged
/// requests (CSRF), names bound to this computer's address (DNS rebinding), framing, sniffing of types, path tricks, floods.
/// </summary>
public sealed class GuardTests
{
    private static readonly string[] Gets =
        ["panel", "job", "job/file", "job/layers/0", "job/records", "checklist", "runs", "runs/x/pictures/y", "events", "openapi.json"];

    private static readonly string[] Posts = ["job", "run", "run/command", "hand/command", "hand/jog", "hand/rest", "controls", "runs/x/ticket"];

    [Fact]
    public async Task Nothing_is_told_or_done_without_the_key_of_this_start()
    {
        await using var panel = await ServedPanel.StartAsync();
        foreach (var key in new[] { "", "x", panel.Host.Key.Text[..^1], panel.Host.Key.Text + "A", PanelKey.New().Text, new string('a', 5000) })
        {
            using var page = panel.Page(key: key);
            foreach (var path in Gets)
                await ServedPanel.Problem(await page.GetAsync($"/api/{path}"), HttpStatusCode.Unauthorized);
            foreach (var path in Posts)
                await ServedPanel.Problem(await page.PostAsJsonAsync($"/api/{path}", new { }), HttpStatusCode.Unauthorized);
        }
    }

    [Fact]
    public async Task A_name_that_is_bound_to_this_computers_address_is_not_served()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        var port = panel.Host.Address.Port;
        string[] hosts =
        [
            "attacker.example", $"attacker.example:{port}", $"127.0.0.1.attacker.example:{port}", "127.0.0.1", $"127.0.0.2:{port}",
            $"localhost.attacker.example:{port}",
        ];
        foreach (var host in hosts)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/api/panel");
            request.Headers.Host = host;
            await ServedPanel.Problem(await page.SendAsync(request), HttpStatusCode.MisdirectedRequest);
            using var forThePage = new HttpRequestMessage(HttpMethod.Get, "/");
            forThePage.Headers.Host = host;
            await ServedPanel.Problem(await page.SendAsync(forThePage), HttpStatusCode.MisdirectedRequest);
        }
    }

    [Fact]
    public async Task A_request_of_another_page_is_refused_even_with_the_key()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        var port = panel.Host.Address.Port;
        foreach (var origin in new[] { "http://attacker.example", "null", $"https://127.0.0.1:{port}", "http://127.0.0.1:1", $"http://127.0.0.1:{port}0" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/run/command") { Content = JsonContent.Create(new { command = "Stop" }) };
            request.Headers.Add("Origin", origin);
            await ServedPanel.Problem(await page.SendAsync(request), HttpStatusCode.Forbidden);
        }

        using var own = new HttpRequestMessage(HttpMethod.Get, "/api/panel");
        own.Headers.Add("Origin", $"http://localhost:{panel.Host.Address.Port}");
        Assert.Equal(HttpStatusCode.OK, (await page.SendAsync(own)).StatusCode);
    }

    [Fact]
    public async Task Nothing_is_changed_by_GET()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        foreach (var path in Posts.Except(["job"]))
            Assert.Contains((await page.GetAsync($"/api/{path}")).StatusCode, new[] { HttpStatusCode.MethodNotAllowed, HttpStatusCode.NotFound });
    }

    [Fact]
    public async Task A_form_such_as_any_page_can_send_is_not_read()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        foreach (var type in new[] { "application/x-www-form-urlencoded", "text/plain", "multipart/form-data; boundary=x" })
        {
            using var content = new StringContent("""{"command":"Stop"}""");
            content.Headers.Remove("Content-Type");
            content.Headers.TryAddWithoutValidation("Content-Type", type);
            Assert.Equal(HttpStatusCode.UnsupportedMediaType, (await page.PostAsync("/api/run/command", content)).StatusCode);
        }
    }

    [Fact]
    public async Task A_body_that_is_too_long_is_refused()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        using var endless = new StringContent($"{{\"command\":\"{new string('x', 70_000)}\"}}", Encoding.UTF8, "application/json");
        await ServedPanel.Problem(await page.PostAsync("/api/run/command", endless), HttpStatusCode.RequestEntityTooLarge);
        using var huge = ServedPanel.File(new byte[JobDesk.MostBytes + 1]);
        try
        {
            await ServedPanel.Problem(await page.PostAsync("/api/job?name=huge.txt", huge), HttpStatusCode.RequestEntityTooLarge);
        }
        catch (HttpRequestException)
        {
            // The connection may be closed before all was sent; the next request is answered all the same.
        }

        Assert.Equal(HttpStatusCode.NotFound, (await page.GetAsync("/api/job")).StatusCode);
    }

    [Fact]
    public async Task A_browser_is_told_to_frame_sniff_keep_and_fetch_nothing()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        foreach (var path in new[] { "/", "/api/panel", "/nothing-there" })
        {
            var answer = await page.GetAsync(path);
            Assert.Contains("frame-ancestors 'none'", answer.Headers.GetValues("Content-Security-Policy").Single());
            Assert.Contains("default-src 'none'", answer.Headers.GetValues("Content-Security-Policy").Single());
            Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Equal("no-referrer", answer.Headers.GetValues("Referrer-Policy").Single());
            Assert.True(answer.Headers.CacheControl?.NoStore);
            Assert.False(answer.Headers.Contains("Server"));
            Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
        }
    }

    [Fact]
    public async Task The_pass_phrase_gives_the_key_and_nothing_else_does()
    {
        await using var panel = await ServedPanel.StartAsync(phrase: new PassPhrase("seven herons on a pier", TimeProvider.System));
        using var page = panel.Page(key: "");
        await ServedPanel.Problem(await page.PostAsJsonAsync("/api/enter", new { phrase = "six herons on a pier" }), HttpStatusCode.Unauthorized);
        var entered = await ServedPanel.Json(await page.PostAsJsonAsync("/api/enter", new { phrase = "seven herons on a pier" }));
        Assert.Equal(panel.Host.Key.Text, entered.GetProperty("key").GetString());
    }

    [Fact]
    public async Task Without_a_pass_phrase_there_is_no_way_in_but_the_key()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page(key: "");
        Assert.Equal(HttpStatusCode.NotFound, (await page.PostAsJsonAsync("/api/enter", new { phrase = "" })).StatusCode);
    }

    [Fact]
    public async Task Beyond_loopback_there_must_be_a_pass_phrase()
    {
        await using var panel = await ServedPanel.StartAsync();
        var setting = new PanelSetting
        {
            Machine = panel.Machine, MachinePath = "", MachineBytes = [], Devices = panel.Devices, Runs = "", Time = TimeProvider.System,
        };
        await Assert.ThrowsAsync<ArgumentException>(() => PanelHost.StartAsync(setting, IPAddress.Parse("192.0.2.1"), 0));
    }

    [Fact]
    public void After_five_wrong_phrases_one_a_second_is_looked_at()
    {
        var time = new FakeTimeProvider();
        var phrase = new PassPhrase("seven herons on a pier", time);
        for (var tries = 0; tries < 5; tries++)
            Assert.False(phrase.Try("wrong"));
        Assert.Null(phrase.Try("seven herons on a pier"));
        time.Advance(TimeSpan.FromSeconds(1.1));
        Assert.False(phrase.Try("wrong"));
        Assert.Null(phrase.Try("seven herons on a pier"));
        time.Advance(TimeSpan.FromSeconds(1.1));
        Assert.True(phrase.Try("seven herons on a pier"));
    }

    [Fact]
    public void A_clock_that_is_set_lets_no_phrase_be_tried_sooner_and_none_be_refused_for_longer()
    {
        var time = new FakeTimeProvider();
        var clock = new SetClock(time);
        var phrase = new PassPhrase("seven herons on a pier", clock);
        for (var tries = 0; tries < 5; tries++)
            Assert.False(phrase.Try("wrong"));
        clock.Set = TimeSpan.FromHours(1);
        Assert.Null(phrase.Try("seven herons on a pier"));
        clock.Set = TimeSpan.FromHours(-1);
        time.Advance(TimeSpan.FromSeconds(1.1));
        Assert.True(phrase.Try("seven herons on a pier"));
    }

    [Fact]
    public void Keys_are_32_octets_and_no_two_are_the_same()
    {
        var keys = Enumerable.Range(0, 100).Select(_ => PanelKey.New()).ToList();
        Assert.All(keys, key => Assert.Equal(43, key.Text.Length)); // 32 octets in base64 without its padding
        Assert.Equal(100, keys.Select(key => key.Text).Distinct().Count());
        Assert.All(keys, key => Assert.True(key.Is(key.Text)));
        Assert.False(keys[0].Is(null));
    }

    [Fact]
    public async Task The_address_to_open_has_the_key_where_no_browser_sends_it()
    {
        await using var panel = await ServedPanel.StartAsync();
        Assert.Equal($"#key={panel.Host.Key.Text}", panel.Host.Page.Fragment);
        Assert.Equal("/", panel.Host.Page.PathAndQuery);
    }
}
