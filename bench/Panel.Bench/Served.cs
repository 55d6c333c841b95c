using System.Net;
using Bridge.Jobs;
using Bridge.Panel;
using Panel.Tests;

namespace Panel.Bench;

/// <summary>A panel as the program serves it, with a mock machine and a folder of its own.</summary>
internal sealed class Served(PanelHost host, Machine machine, DirectoryInfo folder) : IAsyncDisposable
{
    public string Address => $"{host.Page}";

    public Machine Machine => machine;

    /// <summary>Serves the quick gantry of the tests; its text may be changed before.</summary>
    public static async Task<Served> StartAsync(
        Func<string, string>? change = null, Func<Machine, IDevices>? devices = null, TimeProvider? time = null)
    {
        using var stream = typeof(Served).Assembly.GetManifestResourceStream("swift-gantry.toml")!;
        var text = await new StreamReader(stream).ReadToEndAsync();
        var bytes = System.Text.Encoding.UTF8.GetBytes(change is null ? text : change(text));
        var machine = MachineFile.Parse(bytes, "swift-gantry.toml");
        var folder = Directory.CreateTempSubdirectory("panel-bench-");
        return new Served(await PanelHost.StartAsync(new PanelSetting
        {
            Machine = machine,
            MachinePath = "swift-gantry.toml",
            MachineBytes = bytes,
            Devices = devices is null ? new SwiftDevices(machine) : devices(machine),
            Runs = Path.Combine(folder.FullName, "runs"),
            Time = time ?? TimeProvider.System,
        }, IPAddress.Loopback, 0), machine, folder);
    }

    public async ValueTask DisposeAsync()
    {
        await host.DisposeAsync();
        folder.Delete(recursive: true);
    }
}
