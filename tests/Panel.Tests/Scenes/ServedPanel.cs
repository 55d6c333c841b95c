using System.Net;
using System.Text;
using Bridge.Jobs;
using Bridge.Panel;
using Microsoft.Playwright;

namespace Panel.Tests;

/// <summary>A panel as the program serves it, with a mock machine, a folder of its own, and the pages that are open.</summary>
internal sealed class ServedPanel : IAsyncDisposable
{
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
    public static async Task<ServedPanel> StartAsync(Chromium browser, string? port = null, Func<string, string>? change = null)
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
        }, IPAddress.Loopback, 0);
        return new ServedPanel(browser, host, read, devices, folder);
    }

    /// <summary>Opens the page in a browser of its own; a script may come before it.</summary>
    public async Task<IPage> OpenAsync(string? before = null)
    {
        var context = await _browser.NewContextAsync();
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
        await page.GotoAsync($"{Address}");
        await Assertions.Expect(page.Locator("#band")).ToBeVisibleAsync();
        return page;
    }

    /// <summary>A job that works a row, waits for its operator, and works another one.</summary>
    public byte[] JobWithPause()
    {
        var width = _machine.Width;
        Record[] records =
        [
            Record.Row(width, Head.A, new Cell(1, 1), heading: 0, cells: 8), Record.WaitForOperator(),
            Record.Row(width, Head.B, new Cell(1, 2), heading: 0, cells: 8), Record.End,
        ];
        return new JobFile(_machine.Grid, _machine.Digest, Image.Of(width, records)).ToBytes();
    }

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
