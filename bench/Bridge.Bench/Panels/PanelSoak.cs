using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Panel;

namespace Bridge.Bench;

/// <summary>
/// A run of ten hours that a page watches, on the mock device, its time passing at once: how much the panel's memory grows from the first hour on.
/// </summary>
internal static class PanelSoak
{
    private const double FirstHour = 3600;
    private const int Blocks = 9;

    public static IEnumerable<Figure> Measure()
    {
        var runs = Directory.CreateTempSubdirectory("bridge-bench-").FullName;
        try
        {
            var (grown, hours) = WatchAsync(runs).GetAwaiter().GetResult();
            yield return new Figure("panel-soak run", "h", Goal.AtLeast(8), [hours]);
            yield return new Figure("panel-soak growth", "MB", Goal.Below(8), [grown]);
        }
        finally
        {
            Directory.Delete(runs, recursive: true);
        }
    }

    private static async Task<(double GrownMB, double Hours)> WatchAsync(string runs)
    {
        var machineFile = Examples.At("examples/machines/cardboard-plotter.toml");
        var machine = MachineFile.Read(machineFile);
        await using var panel = await PanelHost.StartAsync(
            new PanelSetting
            {
                Machine = machine,
                MachinePath = machineFile,
                MachineBytes = await File.ReadAllBytesAsync(machineFile),
                Devices = new Mocks(machine),
                Runs = runs,
                Time = TimeProvider.System,
            },
            IPAddress.Loopback, port: 0);
        using var page = new HttpClient { BaseAddress = panel.Address.Uri };
        page.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", panel.Key.Text);
        page.DefaultRequestHeaders.Add("Bridge-Page", "soak");
        using var events = new StreamReader(await page.GetStreamAsync("/api/events"));
        await events.ReadLineAsync();
        using var job = new ByteArrayContent(new JobFile(machine.Grid, machine.Digest, LongJob(machine)).ToBytes());
        job.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        (await page.PostAsync("/api/job?name=long.job", job)).EnsureSuccessStatusCode();
        (await page.PostAsJsonAsync("/api/run", new { on = "mock", fast = true, measureLost = false })).EnsureSuccessStatusCode();
        return await GrowthAsync(events);
    }

    private static async Task<(double GrownMB, double Hours)> GrowthAsync(StreamReader events)
    {
        long? atFirst = null;
        while (true)
        {
            var line = await events.ReadLineAsync() ?? throw new EndOfStreamException("The panel is gone.");
            if (!line.StartsWith("data: {\"seq\"", StringComparison.Ordinal))
                continue;
            var run = JsonDocument.Parse(line["data: ".Length..]).RootElement.GetProperty("run");
            if (run.ValueKind != JsonValueKind.Object)
                continue;
            var seconds = run.GetProperty("elapsedSeconds").GetDouble();
            if (seconds >= FirstHour)
                atFirst ??= GC.GetTotalMemory(forceFullCollection: true);
            if (run.GetProperty("end").ValueKind == JsonValueKind.Object)
                return ((GC.GetTotalMemory(forceFullCollection: true) - atFirst!.Value) / 1e6, seconds / 3600);
        }
    }

    // Rows over the whole sheet, each block of them again and again.
    private static Image LongJob(Machine machine)
    {
        var records = new List<Record>();
        for (var block = 0; block < Blocks; block++)
        {
            for (var row = 0; row < 7; row++)
                records.Add(Record.Row(machine.Width, Head.A, new Cell(row % 2 == 0 ? 0 : 15, 2 * row), row % 2 == 0 ? 0 : 4, 16));
            records.Add(Record.Again(machine.Width, 7, 256));
        }

        records.Add(Record.End);
        return Image.Of(machine.Width, records);
    }

    private sealed class Mocks(Machine machine) : IDevices
    {
        public string? Port => null;

        public OpenDevice OpenMock(bool fast)
        {
            TimeProvider time = fast ? new VirtualTime() : TimeProvider.System;
            var mock = MockPort.Of(machine, time, seed: 1);
            return new OpenDevice(mock.Open(), time, "mock", IsMock: true, null, mock.Dispose);
        }

        public Task<(OpenDevice? Device, string Trouble)> OpenPortAsync() => Task.FromResult(((OpenDevice?)null, "There is none."));
    }
}
