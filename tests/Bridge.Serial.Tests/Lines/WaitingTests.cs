namespace Bridge.Serial.Tests;

public class WaitingTests
{
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(30);

    [LinuxFact]
    public async Task Waiting_ends_when_an_octet_arrives()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);

        var waiting = line.WaitAsync(Long, CancellationToken.None).AsTask();
        Assert.False(waiting.IsCompleted);
        await device.WriteAsync([0x42]);
        await waiting.WaitAsync(TimeSpan.FromSeconds(5));

        var octets = new byte[8];
        Assert.Equal(1, line.Read(octets));
        Assert.Equal(0x42, octets[0]);
    }

    [LinuxFact]
    public async Task Waiting_ends_at_once_while_an_octet_is_still_unread()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);
        await device.WriteAsync([1, 2]);
        await line.WaitAsync(Long, CancellationToken.None);

        Assert.Equal(1, line.Read(new byte[1]));

        Assert.True((await line.ReadAllAsync(1)).SequenceEqual(new byte[] { 2 }));
    }

    [LinuxFact]
    public async Task Waiting_ends_when_its_time_is_over()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);
        var began = TimeProvider.System.GetTimestamp();

        await line.WaitAsync(TimeSpan.FromMilliseconds(50), CancellationToken.None);

        Assert.InRange(TimeProvider.System.GetElapsedTime(began), TimeSpan.FromMilliseconds(40), TimeSpan.FromSeconds(5));
        Assert.True(line.IsOpen);
    }

    [LinuxFact]
    public async Task Waiting_for_no_time_returns_at_once()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);

        var waiting = line.WaitAsync(TimeSpan.Zero, CancellationToken.None).AsTask();

        Assert.True(waiting.IsCompletedSuccessfully);
    }

    [LinuxFact]
    public async Task Waiting_ends_when_the_line_closes()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);

        var waiting = line.WaitAsync(Long, CancellationToken.None).AsTask();
        line.Dispose();

        await waiting.WaitAsync(TimeSpan.FromSeconds(5));
    }

    [LinuxFact]
    public async Task Waiting_can_be_cancelled_and_loses_nothing_by_it()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);
        using var cancel = new CancellationTokenSource();

        var waiting = line.WaitAsync(Long, cancel.Token).AsTask();
        await cancel.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => waiting);
        await device.WriteAsync([7]);

        Assert.Equal([7], await line.ReadAllAsync(1));
    }
}
