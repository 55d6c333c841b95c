using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;

namespace Bridge.Cli.Tests;

/// <summary>The panel as the program serves it.</summary>
public sealed partial class PanelTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [LinuxFact]
    public async Task It_prints_an_address_with_its_key_serves_the_page_and_ends_when_told()
    {
        using var panel = BridgeProcess.Start(_folder.Path, "panel", "--machine", _folder.Quick(0.2));
        await panel.Says("Ctrl-C ends.");
        Assert.Contains("It is no emergency stop", panel.Output);
        var address = Address().Match(panel.Output);
        using var page = new HttpClient { BaseAddress = new Uri(address.Groups["page"].Value) };
        Assert.Contains("<html", await page.GetStringAsync("/"));
        Assert.Equal(HttpStatusCode.Unauthorized, (await page.GetAsync("/api/panel")).StatusCode);
        page.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", address.Groups["key"].Value);
        Assert.Contains("kite.csv", await page.GetStringAsync("/api/panel"));
        panel.Signal("INT");
        Assert.Equal(0, (await panel.End()).ExitCode);
    }

    [LinuxFact]
    public async Task A_port_that_another_program_has_is_refused_with_what_to_do()
    {
        using var first = BridgeProcess.Start(_folder.Path, "panel", "--machine", _folder.Quick(0.2));
        await first.Says("Ctrl-C ends.");
        var port = new Uri(Address().Match(first.Output).Groups["page"].Value).Port;
        (await BridgeProcess.Run(_folder.Path, "panel", "--machine", _folder.Quick(0.2), "--port", $"{port}")).AssertRefused($"--port {port}");
        first.Signal("TERM");
        Assert.Equal(0, (await first.End()).ExitCode);
    }

    [Theory]
    [InlineData("--listen 192.168.1.20", "--listen: found no --pass-phrase-file beside it")]
    [InlineData("--listen 0.0.0.0", "--listen: found 0.0.0.0")]
    [InlineData("--listen everywhere", "--listen: found everywhere")]
    [InlineData("--pass-phrase-file phrase.txt", "--pass-phrase-file: found without --listen")]
    [InlineData("--port 80", "--port: found 80; allowed: 1024 to 65535.")]
    [InlineData("--listen 127.0.0.1 --pass-phrase-file phrase.txt", "--pass-phrase-file: found without --listen")]
    public async Task Others_are_let_in_only_by_an_address_and_a_pass_phrase(string words, string told) =>
        (await InProcess.Run(["panel", "--machine", "m.toml", .. words.Split(' ')])).AssertMisused(told);

    [Fact]
    public async Task A_pass_phrase_that_is_short_is_refused()
    {
        var phrase = _folder.Write("phrase.txt", "heron\n");
        (await InProcess.Run("panel", "--machine", _folder.Quick(0.2), "--listen", "192.0.2.1", "--pass-phrase-file", phrase))
            .AssertRefused("found a first line of 5 characters; allowed: 12 to 200 characters");
    }

    [Fact]
    public async Task An_address_that_this_computer_does_not_have_is_refused()
    {
        var phrase = _folder.Write("phrase.txt", "seven herons on a pier\n");
        (await InProcess.Run("panel", "--machine", _folder.Quick(0.2), "--listen", "192.0.2.1", "--pass-phrase-file", phrase)).AssertRefused("192.0.2.1");
    }

    [GeneratedRegex(@"(?<page>http://127\.0\.0\.1:\d+/)#key=(?<key>[\w-]+)")]
    private static partial Regex Address();
}
