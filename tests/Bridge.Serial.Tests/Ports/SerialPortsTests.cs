namespace Bridge.Serial.Tests;

public class SerialPortsTests
{
    [Fact]
    public void Looking_for_ports_never_throws_even_where_nothing_is_known_of_devices()
    {
        Assert.All(SerialPorts.List("/no/such/folder"), found => Assert.Equal("", found.Known));
        Assert.All(SerialPorts.List(), found => Assert.NotEmpty(found.Name));
    }

    [LinuxFact]
    public void A_port_with_a_device_known_to_the_system_comes_first_and_says_which()
    {
        using var device = new PseudoTerminal();
        using var link = new PortLink();
        link.PointTo(device.PortName);

        Assert.Equal(new SerialPortFound(device.PortName, "a-device"), SerialPorts.List(link.Folder)[0]);
    }

    [LinuxFact]
    public void A_link_to_a_port_that_has_gone_is_left_out()
    {
        using var link = new PortLink();
        link.PointTo("/dev/no-such-port");

        Assert.DoesNotContain(SerialPorts.List(link.Folder), found => found.Known.Length > 0);
    }
}
