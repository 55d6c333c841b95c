using System.Net;
using System.Text;
using Bridge.Jobs;
using Bridge.Panel;
using Microsoft.Playwright;

namespace Panel.Tests;

/// <summary>A panel as the program serves it, with a mock machine, a folder of its own, and the pages that are open.</summary>
internal sealed class ServedPanel : IAsyncDisposable
{
    /// <summary>What lets a page in that has no key.</summary>
    public const string Phrase = "seven herons on a pier";

    private readonly DirectoryInfo _folder;
    private readonly Machine _machine;
    private readonly List<IBrowserContext> _contexts = [];
    private readonly Chromium _browser;
    private readonly PanelHost _host;

    private ServedPanel(Chromium browser, PanelHost host, Machine machine, SwiftDevices devices, DirectoryInfo folder) =>
        (_browser, _host, _machine, Devices, _folder) = (browser, host, machine, devices, folder);

    public SwiftDevices Devices { get; }

    public Uri Address => _host.Page;

    /// <summary>What went wrong in the scripts of the pages: nothing may.</summary>
    public List<string> ScriptErrors { get; } = [];

    /// <summary>Serves one; the text of the machine file may be changed before.</summary>
    public static async Task<ServedPanel> StartAsync(
        Chromium browser, string? port = null, Func<string, string>? change = null, IPAddress? listen = null)
    {
        var path = Reader.Scene("swift-gantry.toml");
        var text = await File.ReadAllTextAsync(path);
        var bytes = Encoding.UTF8.GetBytes(change is null ? text : change(text));
        var read = MachineFile.Parse(bytes, path);
        var (devices, folder) = (new SwiftDevices(read) { Port = port }, Directory.CreateTempSubdirectory("panel-"));
        var host = await PanelHost.StartAsync(new PanelSetting
        {
            Machine = read,
            MachinePath = path,
            MachineBytes = bytes,
            Devices = devices,
            Runs = Path.Combine(folder.FullName, "runs"),
            Examples = Path.Combine(Vectors.Root, "examples", "shapes"),
            Time = TimeProvider.System,
            PassPhrase = new PassPhrase(Phrase, TimeProvider.System),
        }, listen ?? IPAddress.Loopback, 0);
        return new ServedPanel(browser, host, read, devices, folder);
    }

    /// <summary>Opens the page in a browser of its own, which may be one without WebGL; a script may come before it.</summary>
    public async Task<IPage> OpenAsync(string? before = null, bool isPlain = false)
    {
        var page = await NewPageAsync(before, isPlain);
        await page.GotoAsync($"{Address}");
        await Assertions.Expect(page.Locator("#band")).ToBeVisibleAsync();
        return page;
    }

    /// <summary>Opens it as who knows the address and not the key.</summary>
    public async Task<IPage> OpenWithoutKeyAsync()
    {
        var page = await NewPageAsync();
        await page.GotoAsync(Address.GetLeftPart(UriPartial.Path));
        await Assertions.Expect(page.Locator("#enter")).ToBeVisibleAsync();
        return page;
    }

    private async Task<IPage> NewPageAsync(string? before = null, bool isPlain = false)
    {
        var context = await _browser.NewContextAsync(isPlain);
        _contexts.Add(context);
        if (before is not null)
            await context.AddInitScriptAsync(before);
        var page = await context.NewPageAsync();
        page.PageError += (_, error) => ScriptErrors.Add(error);
        page.Console += (_, message) =>
        {
            if (message.Text.Contains("Content Security Policy", StringComparison.Ordinal))
                ScriptErrors.Add(message.Text);
        };
        return page;
    }

    /// <summary>A job that works a row, waits for its operator, and works another one.</summary>
    public byte[] JobWithPause() => JobOf(Row(Head.A, 1), Record.WaitForOperator(), Row(Head.B, 2));

    /// <summary>A job that works a row twice, which this machine forbids: it cannot be proved.</summary>
    public byte[] JobTwiceOver() => JobOf(Row(Head.A, 1), Row(Head.B, 1));

    private Record Row(Head head, int y) => Record.Row(_machine.Width, head, new Cell(1, y), heading: 0, cells: 8);

    private byte[] JobOf(params Record[] records) =>
        new JobFile(_machine.Grid, _machine.Digest, Image.Of(_machine.Width, [.. records, Record.End])).ToBytes();

    /// <summary>The program ends; its pages stay open.</summary>
    public ValueTask EndAsync() => _host.DisposeAsync();

    public async ValueTask DisposeAsync()
    {
        foreach (var context in _contexts)
            await context.DisposeAsync();
        await _host.DisposeAsync();
        _folder.Delete(recursive: true);
        Assert.Empty(ScriptErrors);
    }
}
