using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Cli.Tests;

/// <summary>The mock device in this process keeps real time, which it cannot beside tests that use every thread to plan.</summary>
[CollectionDefinition(nameof(RealTime), DisableParallelization = true)]
public class RealTime;

/// <summary>Runs on a serial port: a pseudo-terminal, at whose other end the mock device answers in real time.</summary>
[Collection(nameof(RealTime))]
public sealed class BoardTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [LinuxFact]
    public async Task A_job_is_streamed_to_a_board_on_a_port()
    {
        var ran = await RunOnBoard("600033" + "000000", baud: 115200);
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("Caution: a run can move a machine", ran.Output);
        Assert.Contains("misses 115200 baud by +2.1 %", ran.Output);
        Assert.Contains("Unattended: ", ran.Output);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Contains("\"workedByA\": 16", File.ReadAllText(Path.Combine(folder, "summary.json")));
    }

    [LinuxFact]
    public async Task A_board_that_waits_for_an_absent_operator_is_stopped()
    {
        var ran = await RunOnBoard("400001" + "C20000" + "400101" + "000000", baud: 500000);
        Assert.True(ran.ExitCode == 3, ran.Output + ran.Error);
        Assert.Contains("HeldTooLong: ", ran.Output);
        Assert.DoesNotContain("misses", ran.Output);
    }

    [LinuxFact]
    public async Task A_board_is_not_run_with_nobody_at_a_terminal()
    {
        var ran = await BridgeProcess.Run(_folder.Path, "run", await _folder.KiteJob(), "--machine", _folder.Plotter, "--device", "/dev/ttyACM0");
        ran.AssertRefused("nobody at a terminal");
        Assert.False(Directory.Exists(_folder.In("runs")));
    }

    [LinuxFact]
    public async Task A_port_that_is_not_there_is_told_with_code_5()
    {
        var ran = await InProcess.Run(
            "run", await _folder.KiteJob(), "--machine", _folder.Plotter, "--device", "/dev/ttyNONE", "--unattended", "--runs", _folder.In("runs"));
        Assert.Equal(5, ran.ExitCode);
        Assert.Contains("Refused: --device /dev/ttyNONE: There is no port /dev/ttyNONE.", ran.Error);
        Assert.False(Directory.Exists(_folder.In("runs")));
    }

    [Fact]
    public async Task Ports_are_listed_or_there_are_none()
    {
        var ran = await InProcess.Run("ports");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.NotEmpty(ran.Output);
    }

    private async Task<Ran> RunOnBoard(string hex, int baud)
    {
        var path = _folder.Quick(0.02);
        File.AppendAllText(path, $"[link]\nbaud = {baud}\n");
        using var mock = MockPort.Of(MachineFile.Read(path), TimeProvider.System, seed: 1);
        using var terminal = new PseudoTerminal();
        using var ended = new CancellationTokenSource();
        using var line = mock.Open();
        var relay = Relay(terminal, line, ended.Token);
        var ran = await BridgeProcess.Run(_folder.Path, "run", _folder.Write("image", Convert.FromHexString(hex)), "--raw", "--machine", path,
            "--device", terminal.PortName, "--unattended");
        await ended.CancelAsync();
        await relay;
        return ran;
    }

    private static async Task Relay(PseudoTerminal terminal, ILine line, CancellationToken ended)
    {
        var buffer = new byte[1024];
        while (!ended.IsCancellationRequested)
        {
            var count = line.Read(buffer);
            if (count > 0)
                await terminal.WriteAsync(buffer[..count]);
            var octets = await terminal.ReadAsync(256, withinMs: 1);
            if (octets.Length > 0)
                line.Write(octets);
        }
    }
}
