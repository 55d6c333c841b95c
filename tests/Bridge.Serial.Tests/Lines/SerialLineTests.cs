using System.Collections.Concurrent;
using Bridge.Wire;

namespace Bridge.Serial.Tests;

public class SerialLineByFileTests() : SerialLineTests(Port.Once);

public class SerialLineByStreamTests() : SerialLineTests(Port.Once with { WritesByStream = true, WriteTimeout = TimeSpan.FromSeconds(10) });

public abstract class SerialLineTests
{
    private readonly SerialLineOptions once;

    private protected SerialLineTests(SerialLineOptions once) => this.once = once;

    private static readonly byte[] EveryOctet = [.. Enumerable.Range(0, 256).Select(value => (byte)value)];

    [LinuxFact]
    public async Task Every_octet_goes_out_unchanged()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName, once);

        line.Write(EveryOctet);

        Assert.Equal(EveryOctet, await device.ReadAsync(256));
    }

    [LinuxFact]
    public async Task Every_octet_comes_in_unchanged_and_is_not_echoed()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName, once);

        await device.WriteAsync(EveryOctet);

        Assert.Equal(EveryOctet, await line.ReadAllAsync(256));
        Assert.Empty(await device.ReadAsync(1, withinMs: 50));
    }

    [LinuxFact]
    public async Task Big_bursts_both_ways_at_once_arrive_whole_and_in_order()
    {
        const int Length = 200_000;
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName, once with { OutgoingOctets = 1 << 18 });
        var outward = new byte[Length];
        var inward = new byte[Length];
        new Random(1).NextBytes(outward);
        new Random(2).NextBytes(inward);

        line.Write(outward);
        var deviceWrites = device.WriteAsync(inward);
        var deviceReads = device.ReadAsync(Length);

        Assert.Equal(inward, await line.ReadAllAsync(Length));
        Assert.Equal(outward, await deviceReads);
        await deviceWrites;
        Assert.True(line.IsOpen, line.ClosedBecause);
    }

    [LinuxFact]
    public async Task What_arrives_faster_than_it_is_read_is_held_back_and_not_lost()
    {
        const int Length = 20_000;
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName, once with { ArrivedOctets = 64 });
        var inward = new byte[Length];
        new Random(3).NextBytes(inward);

        var deviceWrites = device.WriteAsync(inward);
        await Task.Delay(50);

        Assert.Equal(inward, await line.ReadAllAsync(Length));
        await deviceWrites;
    }

    [LinuxFact]
    public async Task STOP_overtakes_what_waits_and_that_is_dropped()
    {
        const int Length = 200_000;
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName, once with { OutgoingOctets = Length, WriteTimeout = TimeSpan.FromSeconds(30) });

        line.Write(new byte[Length]); // far more than the system takes
        await Task.Delay(100);
        line.Overtake(StopOctets.Burst);
        var sent = await device.ReadAsync(Length + StopOctets.Burst.Length, withinMs: 1000);

        Assert.Equal(StopOctets.Burst.ToArray(), sent[^StopOctets.Burst.Length..]);
        var before = sent.AsSpan().TrimEnd(StopOctets.Burst[0]); // the first burst may be among what is dropped, or not
        Assert.InRange(sent.Length - before.Length, StopOctets.Burst.Length, 2 * StopOctets.Burst.Length);
        Assert.Equal(-1, before.IndexOfAnyExcept((byte)0));
        Assert.True(sent.Length < Length / 2, $"{sent.Length} octets were sent.");
        Assert.True(line.IsOpen, line.ClosedBecause);
    }

    [LinuxFact]
    public async Task STOP_is_with_the_system_before_that_is_asked_to_drop_anything_and_once_more_after()
    {
        using var device = new PseudoTerminal();
        var calls = new ConcurrentQueue<string>();
        var line = await Port.OpenAsync(device.PortName, once with { Between = output => new Noted(output, calls) });

        line.Overtake(StopOctets.Burst);
        line.Dispose(); // what the port did not take at once leaves by the line's own thread

        var burst = Convert.ToHexString(StopOctets.Burst);
        Assert.Equal([burst, "forget", burst], calls);
    }

    [LinuxFact]
    public async Task What_was_handed_over_leaves_before_the_line_is_closed()
    {
        using var device = new PseudoTerminal();
        var line = await Port.OpenAsync(device.PortName, once);

        line.Write([0x7F, 0x7F, 0x7F, 0x7F]);
        line.Dispose();

        Assert.Equal([0x7F, 0x7F, 0x7F, 0x7F], await device.ReadAsync(4));
        Assert.Contains("closed by this program", line.ClosedBecause, StringComparison.Ordinal);
    }

    [LinuxFact]
    public async Task A_closed_line_takes_and_gives_nothing_and_can_be_closed_again()
    {
        using var device = new PseudoTerminal();
        var line = await Port.OpenAsync(device.PortName, once);
        line.Dispose();

        line.Write([1, 2, 3]);
        line.Dispose();

        Assert.Equal(0, line.Read(new byte[8]));
        Assert.Empty(await device.ReadAsync(8, withinMs: 50));
    }

    [LinuxFact]
    public async Task A_write_never_waits_and_a_full_queue_closes_the_line_with_a_reason()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(device.PortName, once with { WriteTimeout = TimeSpan.FromSeconds(30) });
        var began = TimeProvider.System.GetTimestamp();

        for (var burst = 0; burst < 1000 && line.IsOpen; burst++)
            line.Write(new byte[1024]);

        Assert.False(line.IsOpen);
        Assert.Contains("does not keep up", line.ClosedBecause, StringComparison.Ordinal);
        Assert.InRange(TimeProvider.System.GetElapsedTime(began), TimeSpan.Zero, TimeSpan.FromSeconds(10));
    }

    [LinuxFact]
    public async Task A_device_that_takes_no_octet_any_more_closes_the_line_after_the_write_time_out()
    {
        using var device = new PseudoTerminal();
        using var line = await Port.OpenAsync(
            device.PortName, once with { OutgoingOctets = 1 << 18, WriteTimeout = TimeSpan.FromMilliseconds(200) });

        line.Write(new byte[200_000]);
        await line.UntilClosedAsync();

        Assert.Contains("took no octet for 0.2 s", line.ClosedBecause, StringComparison.Ordinal);
    }

    [LinuxFact]
    public async Task A_line_whose_device_takes_nothing_closes_within_a_bound_and_frees_the_port()
    {
        using var device = new PseudoTerminal();
        var line = await Port.OpenAsync(
            device.PortName, once with { OutgoingOctets = 1 << 18, WriteTimeout = TimeSpan.FromMilliseconds(200) });
        line.Write(new byte[200_000]);

        await Task.Run(line.Dispose).WaitAsync(TimeSpan.FromSeconds(5));

        (await Port.OpenAsync(device.PortName, once)).Dispose();
    }

    /// <summary>Notes the octets that an output takes, and when it is asked to forget.</summary>
    private sealed class Noted(IPortOutput output, ConcurrentQueue<string> calls) : IPortOutput
    {
        public bool IsIdle => output.IsIdle;

        public int Write(ReadOnlySpan<byte> octets)
        {
            var taken = output.Write(octets);
            if (taken > 0)
                calls.Enqueue(Convert.ToHexString(octets[..taken]));
            return taken;
        }

        public Task RoomAsync() => output.RoomAsync();

        public void ForgetWhatWaits()
        {
            calls.Enqueue("forget");
            output.ForgetWhatWaits();
        }

        public void Dispose() => output.Dispose();
    }
}
