using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Panel.Tests;

/// <summary>A panel that is served for a test, in a folder of its own, on a machine that is quick enough for tests in real time.</summary>
internal sealed class ServedPanel : IAsyncDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("bridge-panel-").FullName;
    private PanelHost? _host;

    public static byte[] QuickMachine { get; } = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(RunExamples.MachineBytes("cardboard-plotter.toml"))
        .Replace("reference_speed_mm_s = 10", "reference_speed_mm_s = 200", StringComparison.Ordinal)
        .Replace("top_speed_mm_s = 60", "top_speed_mm_s = 400", StringComparison.Ordinal)
        .Replace("accel_mm_s2 = 400", "accel_mm_s2 = 20000", StringComparison.Ordinal)
        .Replace("accel_mm_s2 = 300", "accel_mm_s2 = 20000", StringComparison.Ordinal)
        + "\n[timeouts]\nline_silence_seconds = 10\n"); // a computer that is busy with other tests is not silent

    public PanelHost Host => _host!;

    public required TestDevices Devices { get; init; }

    public required Machine Machine { get; init; }

    public string Runs { get; private set; } = "";

    public static async Task<ServedPanel> StartAsync(
        string? port = null, MockFaults? faults = null, byte[]? machineBytes = null, PassPhrase? phrase = null, string? runs = null,
        TimeProvider? time = null)
    {
        var bytes = machineBytes ?? QuickMachine;
        var machine = MachineFile.Parse(bytes, "machine.toml");
        var panel = new ServedPanel { Devices = new TestDevices(machine, port, faults), Machine = machine };
        panel.Runs = runs ?? Path.Combine(panel._folder, "runs");
        panel._host = await PanelHost.StartAsync(
            new PanelSetting
            {
                Machine = machine,
                MachinePath = "machine.toml",
                MachineBytes = bytes,
                Devices = panel.Devices,
                Runs = panel.Runs,
                Examples = Path.Combine(Vectors.Root, "examples", "shapes"),
                Time = time ?? TimeProvider.System,
                PassPhrase = phrase,
            },
            IPAddress.Loopback, port: 0);
        return panel;
    }

    /// <summary>A client as a page is one.</summary>
    public HttpClient Page(string? page = "one", string? key = null)
    {
        var client = new HttpClient { BaseAddress = Host.Address.Uri, Timeout = TimeSpan.FromSeconds(60) };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key ?? Host.Key.Text);
        if (page is not null)
            client.DefaultRequestHeaders.Add("Bridge-Page", page);
        return client;
    }

    public async ValueTask DisposeAsync()
    {
        await Host.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>A file whose octets are those of a text.</summary>
    public static ByteArrayContent File(string text) => File(Encoding.UTF8.GetBytes(text));

    public static ByteArrayContent File(byte[] bytes)
    {
        var content = new ByteArrayContent(bytes);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        return content;
    }

    public static async Task<JsonElement> Json(HttpResponseMessage answer)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, string.Create(CultureInfo.InvariantCulture, $"{(int)answer.StatusCode} {text}"));
        return JsonDocument.Parse(text).RootElement;
    }

    /// <summary>The problem that an answer tells, of a status.</summary>
    public static async Task<JsonElement> Problem(HttpResponseMessage answer, HttpStatusCode status)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == status, string.Create(CultureInfo.InvariantCulture, $"{(int)answer.StatusCode} {text}"));
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        return JsonDocument.Parse(text).RootElement;
    }

    public static Task<HttpResponseMessage> Post(HttpClient page, string path, object body) => page.PostAsJsonAsync(path, body);
}
