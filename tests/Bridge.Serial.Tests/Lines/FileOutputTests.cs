namespace Bridge.Serial.Tests;

public class FileOutputTests
{
    [LinuxFact]
    public async Task Octets_are_with_the_system_when_Write_returns_and_it_takes_no_more_than_it_has_room_for()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName); // sets the port up
        using var output = FileOutput.TryOpen(device.PortName, TimeProvider.System)!;
        var taken = 0;
        for (int count, tries = 0; (count = output.Write(new byte[1000])) > 0 && tries < 1000; tries++)
            taken += count;

        Assert.InRange(taken, 1, 999_999);
        Assert.True(output.IsIdle);
        Assert.Equal(taken, (await device.ReadAsync(taken)).Length);
        Assert.Equal(3, output.Write([1, 2, 3]));
        Assert.Equal([1, 2, 3], await device.ReadAsync(3));
    }

    [LinuxFact]
    public async Task A_device_that_has_gone_is_an_error_at_once()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName);
        using var output = FileOutput.TryOpen(device.PortName, TimeProvider.System)!;
        device.Vanish();

        Assert.Throws<IOException>(() => output.Write([1]));
    }

    [LinuxFact]
    public void A_port_that_is_not_there_has_no_output() =>
        Assert.Null(FileOutput.TryOpen("/dev/no-such-port", TimeProvider.System));
}
