using System.Net;
using System.Net.Http.Json;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>The way in by a pass phrase, on this computer and from the network.</summary>
[Collection(BrowserTests.Name)]
public class EntranceTests(Chromium browser)
{
    [BrowserFact]
    public async Task A_wrong_pass_phrase_is_refused_with_where_it_stands_and_the_right_one_opens_the_page()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        await EnterAsync(await OpenWithoutKeyAsync(panel));
    }

    [NetworkFact]
    public async Task From_an_address_of_the_network_the_pass_phrase_alone_lets_a_browser_in()
    {
        await using var panel = await ServedPanel.StartAsync(browser, listen: NetworkFactAttribute.Address);
        Assert.False(IPAddress.IsLoopback(IPAddress.Parse(panel.Address.Host)));
        var page = await OpenWithoutKeyAsync(panel);
        await EnterAsync(page);
        await page.PlanStileAsync();
        await page.ReloadAsync();
        await Expect(page.Locator("#plan h2")).ToHaveTextAsync("stile.txt");
    }

    [NetworkFact]
    public async Task From_an_address_of_the_network_no_other_name_page_or_phrase_is_heard()
    {
        await using var panel = await ServedPanel.StartAsync(browser, listen: NetworkFactAttribute.Address);
        using var http = new HttpClient { BaseAddress = new Uri(panel.Address.GetLeftPart(UriPartial.Authority)) };
        foreach (var (host, origin, phrase, status) in new (string?, string?, string, HttpStatusCode)[]
        {
            (null, null, "six herons on a pier", HttpStatusCode.Unauthorized),
            ("panel.example", null, ServedPanel.Phrase, HttpStatusCode.MisdirectedRequest),
            ($"localhost:{panel.Address.Port}", null, ServedPanel.Phrase, HttpStatusCode.MisdirectedRequest),
            (null, "http://panel.example", ServedPanel.Phrase, HttpStatusCode.Forbidden),
            (null, $"http://localhost:{panel.Address.Port}", ServedPanel.Phrase, HttpStatusCode.Forbidden),
            (null, panel.Address.GetLeftPart(UriPartial.Authority), ServedPanel.Phrase, HttpStatusCode.OK),
        })
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/enter") { Content = JsonContent.Create(new { phrase }) };
            request.Headers.Host = host;
            if (origin is not null)
                request.Headers.Add("Origin", origin);
            Assert.Equal((host, origin, phrase, status), (host, origin, phrase, (await http.SendAsync(request)).StatusCode));
        }

        Assert.Equal(HttpStatusCode.Unauthorized, (await http.GetAsync("/api/panel")).StatusCode);
        using var loopback = new TcpClient();
        await Assert.ThrowsAnyAsync<SocketException>(() => loopback.ConnectAsync(IPAddress.Loopback, panel.Address.Port)); // it listens there alone
    }

    private static async Task<IPage> OpenWithoutKeyAsync(ServedPanel panel)
    {
        var page = await panel.OpenWithoutKeyAsync();
        await Expect(page.Locator("#enter-title")).ToHaveTextAsync("This address is not whole");
        await Expect(page.Locator("#phrase")).ToBeFocusedAsync();
        return page;
    }

    private static async Task EnterAsync(IPage page)
    {
        await page.EnterAsync("six herons on a pier");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("Not the pass phrase");
        await Expect(page.Locator("#trouble")).ToContainTextAsync("the file that --pass-phrase-file named");
        await Expect(page.Locator("#band")).ToBeHiddenAsync();
        await page.EnterAsync(ServedPanel.Phrase);
        await Expect(page.Locator("#band")).ToBeVisibleAsync();
        await Expect(page.State()).ToHaveTextAsync("Nothing runs");
        await Expect(page.Locator("#enter")).ToBeHiddenAsync();
    }
}

/// <summary>A test that needs the browser, and an address of this computer beyond loopback.</summary>
internal sealed class NetworkFactAttribute : FactAttribute
{
    public NetworkFactAttribute() => Skip = Chromium.IsMissingBecause ?? (Address is null ? "This computer has no address of version 4 in a network." : null);

    /// <summary>The first such address; null where there is none.</summary>
    public static IPAddress? Address { get; } = NetworkInterface.GetAllNetworkInterfaces()
        .Where(network => network.OperationalStatus == OperationalStatus.Up)
        .SelectMany(network => network.GetIPProperties().UnicastAddresses)
        .Select(unicast => unicast.Address)
        .FirstOrDefault(address => address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address));
}
