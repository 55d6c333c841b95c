namespace Bridge.Serial.Tests;

public class RefusedOpeningTests
{
    [Theory]
    [InlineData("/dev/no-such-port")]
    [InlineData("/no/such/folder/port")]
    public async Task A_port_that_does_not_exist_is_refused_in_words(string name)
    {
        var refused = await Port.RefusedAsync(name);

        Assert.Contains($"There is no port {name}", refused.Because, StringComparison.Ordinal);
        Assert.True(refused.MayPass);
    }

    [LinuxFact]
    public async Task A_folder_and_a_device_of_another_kind_are_no_serial_ports()
    {
        foreach (var name in new[] { "/dev", "/dev/null" })
            Assert.Equal($"{name} is no serial port. Give the name of a serial port.", (await Port.RefusedAsync(name)).ToString());
    }

    [LinuxFact]
    public async Task A_file_is_no_serial_port()
    {
        using var link = new PortLink();
        await File.WriteAllTextAsync(link.Path, "a letter");

        var refused = await Port.RefusedAsync(link.Path);

        Assert.Equal($"{link.Path} is no serial port.", refused.Because);
        Assert.False(refused.MayPass);
        Assert.Equal("a letter", await File.ReadAllTextAsync(link.Path));
    }

    [Fact]
    public async Task A_name_without_characters_with_a_zero_or_with_too_many_is_refused()
    {
        foreach (var name in new[] { "", "/dev/tty\0S0", "/dev/" + new string('x', 251) })
            Assert.False((await Port.RefusedAsync(name)).MayPass);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-9600)]
    [InlineData(int.MaxValue)]
    public async Task A_baud_rate_that_cannot_be_is_refused(int baud)
    {
        var opening = await SerialLines.OpenAsync("/dev/ttyS0", baud, Port.Once, TimeProvider.System, CancellationToken.None);

        Assert.Contains($"{baud} baud", Assert.IsType<SerialOpening.Refused>(opening).Because, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_option_out_of_its_range_is_an_error_of_the_caller()
    {
        foreach (var wrong in new[]
        {
            Port.Once with { Tries = 0 },
            Port.Once with { Tries = 21 },
            Port.Once with { SettlePause = TimeSpan.FromSeconds(5.1) },
            Port.Once with { OutgoingOctets = 63 },
            Port.Once with { WriteTimeout = TimeSpan.Zero },
        })
            await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => Port.TryOpenAsync("/dev/no-such-port", wrong));
    }
}
