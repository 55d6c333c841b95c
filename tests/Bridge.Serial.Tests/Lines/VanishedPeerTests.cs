namespace Bridge.Serial.Tests;

public class VanishedPeerTests
{
    private static readonly TimeSpan Bound = TimeSpan.FromSeconds(5);

    [LinuxFact]
    public async Task A_device_that_vanishes_wakes_who_waits_and_says_why()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);

        var waiting = line.WaitAsync(TimeSpan.FromMinutes(1), CancellationToken.None).AsTask();
        device.Vanish();
        await waiting.WaitAsync(Bound);

        Assert.False(line.IsOpen);
        Assert.Contains("is gone", line.ClosedBecause, StringComparison.Ordinal);
    }

    [LinuxFact]
    public async Task What_a_device_sent_before_it_vanished_can_still_be_read()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);
        await device.WriteAsync([1, 2, 3]);
        await line.WaitAsync(Bound, CancellationToken.None);

        device.Vanish();
        await line.UntilClosedAsync();

        Assert.Equal([1, 2, 3], await line.ReadAllAsync(3));
    }

    [LinuxFact]
    public async Task A_line_whose_device_vanished_takes_writes_and_closes_within_a_bound()
    {
        using var device = new PseudoTerminal();
        var line = await Port.OpenAsync(device.PortName);

        device.Vanish();
        var closing = Task.Run(() =>
        {
            for (var burst = 0; burst < 100; burst++)
                line.Write(new byte[64]);
            line.Dispose();
        });

        await closing.WaitAsync(Bound);
        Assert.False(line.IsOpen);
    }

    [LinuxFact]
    public async Task A_device_that_vanishes_while_octets_wait_to_be_sent_closes_the_line()
    {
        using var device = new PseudoTerminal();
        var line = await Port.OpenAsync(
            device.PortName, Port.Once with { OutgoingOctets = 1 << 18, WriteTimeout = TimeSpan.FromSeconds(30) });
        line.Write(new byte[200_000]);
        await Task.Delay(50);

        device.Vanish();
        await line.UntilClosedAsync();

        await Task.Run(line.Dispose).WaitAsync(Bound);
    }

    [LinuxFact]
    public async Task A_port_can_be_opened_again_when_its_device_is_back()
    {
        using var link = new PortLink();
        using (var device = new PseudoTerminal())
        {
            link.PointTo(device.PortName);
            using var line = await Port.OpenAsync(link.Path);
            device.Vanish();
            await line.UntilClosedAsync();
        }

        using var again = new PseudoTerminal();
        link.PointTo(again.PortName);
        using var secondLine = await Port.OpenAsync(link.Path);
        secondLine.Write([9]);

        Assert.Equal([9], await again.ReadAsync(1));
    }

    [LinuxFact]
    public async Task Opening_goes_on_trying_until_the_device_is_back()
    {
        using var link = new PortLink();
        using var device = new PseudoTerminal();

        var opening = Port.OpenAsync(link.Path, Port.Once with { Tries = 20, LongestPause = TimeSpan.FromMilliseconds(100) });
        await Task.Delay(150);
        Assert.False(opening.IsCompleted);
        link.PointTo(device.PortName);

        using var line = await opening.WaitAsync(Bound);
        await device.WriteAsync([5]);
        Assert.Equal([5], await line.ReadAllAsync(1));
    }
}
