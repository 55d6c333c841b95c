using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Bridge.Cli.Tests;

public sealed class CollectorTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [LinuxFact]
    public async Task A_run_tells_a_collector_its_states_and_its_figures()
    {
        var port = FreePort();
        using var collector = new HttpListener { Prefixes = { $"http://127.0.0.1:{port}/" } };
        collector.Start();
        var heard = HearAsync(collector);
        var ran = await BridgeProcess.RunInShell(_folder.Path, $"{Variables(port)} {await RunWords()}");
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        collector.Stop();
        var said = await heard;
        Assert.All(["/v1/traces", "/v1/metrics", "Execute", "bridge.machine", "Cardboard plotter", "bridge.run.cells", "bridge.link.round_trip", "{cell}"],
            words => Assert.Contains(words, said));
    }

    [LinuxFact]
    public async Task A_collector_that_is_not_there_changes_nothing_of_a_run()
    {
        var ran = await BridgeProcess.RunInShell(_folder.Path, $"{Variables(FreePort())} {await RunWords()}");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Complete: ", ran.Output);
    }

    private static string Variables(int port) => $"OTEL_EXPORTER_OTLP_ENDPOINT=http://127.0.0.1:{port} OTEL_EXPORTER_OTLP_PROTOCOL=http/protobuf";

    private async Task<string> RunWords() => $"{BridgeProcess.Program} run {await _folder.KiteJob()} --machine {_folder.Plotter} --fast";

    private static async Task<string> HearAsync(HttpListener collector)
    {
        var said = new StringBuilder();
        try
        {
            while (collector.IsListening)
            {
                var told = await collector.GetContextAsync();
                using var body = new MemoryStream();
                await told.Request.InputStream.CopyToAsync(body);
                said.Append(told.Request.Url!.AbsolutePath).Append(Encoding.Latin1.GetString(body.ToArray()));
                told.Response.Close();
            }
        }
        catch (Exception error) when (error is HttpListenerException or ObjectDisposedException)
        {
            // It was stopped.
        }

        return said.ToString();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
