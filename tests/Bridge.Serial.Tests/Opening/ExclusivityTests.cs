using System.Diagnostics;

namespace Bridge.Serial.Tests;

public class ExclusivityTests
{
    [LinuxFact]
    public async Task A_port_that_is_open_is_refused_to_a_second_who_asks()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);

        var refused = await Port.RefusedAsync(device.PortName);

        Assert.Contains("in use by another run", refused.Because, StringComparison.Ordinal);
        Assert.True(line.IsOpen);
    }

    [LinuxFact]
    public async Task Another_name_for_a_port_that_is_open_is_refused_too()
    {
        using var device = new PseudoTerminal();
        using var link = new PortLink();
        link.PointTo(device.PortName);
        using var line = await Port.OpenAsync(device.PortName);

        Assert.Contains("in use by another run", (await Port.RefusedAsync(link.Path)).Because, StringComparison.Ordinal);
    }

    [LinuxFact]
    public async Task A_port_that_was_closed_can_be_opened_again_at_once()
    {
        using var device = new PseudoTerminal();
        for (var times = 0; times < 3; times++)
        {
            using var line = await Port.OpenAsync(device.PortName);
            line.Write([(byte)times]);
            Assert.Equal([(byte)times], await device.ReadAsync(1));
        }
    }

    [LinuxFact]
    public async Task A_refused_opening_keeps_no_lock()
    {
        using var link = new PortLink();
        await Port.RefusedAsync(link.Path);
        using var device = new PseudoTerminal();
        link.PointTo(device.PortName);

        using var line = await Port.OpenAsync(link.Path);

        Assert.True(line.IsOpen);
    }

    [LinuxFact]
    public async Task A_lock_of_another_process_holds_until_that_process_is_killed()
    {
        using var device = new PseudoTerminal();
        (await Port.OpenAsync(device.PortName)).Dispose();
        var lockFile = Path.Combine(Path.GetTempPath(), $"bridge-port-{Uri.EscapeDataString(device.PortName)}.lock");
        Assert.True(File.Exists(lockFile));

        using var other = Process.Start(
            new ProcessStartInfo("flock", ["--exclusive", "--no-fork", lockFile, "sh", "-c", "echo held; exec sleep 60"])
            {
                RedirectStandardOutput = true,
            })!;
        try
        {
            Assert.Equal("held", await other.StandardOutput.ReadLineAsync());
            Assert.Contains("in use by another run", (await Port.RefusedAsync(device.PortName)).Because, StringComparison.Ordinal);
        }
        finally
        {
            other.Kill();
            await other.WaitForExitAsync();
        }

        using var line = await Port.OpenAsync(device.PortName);
        Assert.True(line.IsOpen);
    }
}
