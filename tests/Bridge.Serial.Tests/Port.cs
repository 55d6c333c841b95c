namespace Bridge.Serial.Tests;

/// <summary>Opens ports as most tests want it, and waits with a bound.</summary>
internal static class Port
{
    public static readonly SerialLineOptions Once = new() { Tries = 1 };

    // Who waits may also be woken for octets that the read before has taken.
    private const int MostIdle = 3;

    public static Task<SerialOpening> TryOpenAsync(string name, SerialLineOptions? options = null) =>
        SerialLines.OpenAsync(name, 500_000, options ?? Once, TimeProvider.System, CancellationToken.None);

    public static async Task<SerialLine> OpenAsync(string name, SerialLineOptions? options = null) =>
        Assert.IsType<SerialOpening.Opened>(await TryOpenAsync(name, options)).Line;

    public static async Task<SerialOpening.Refused> RefusedAsync(string name, SerialLineOptions? options = null) =>
        Assert.IsType<SerialOpening.Refused>(await TryOpenAsync(name, options));

    /// <summary>Reads exactly so many octets, or what came until five seconds passed without any a few times over.</summary>
    public static async Task<byte[]> ReadAllAsync(this SerialLine line, int count)
    {
        var octets = new byte[count];
        var (done, idle) = (0, 0);
        while (done < count && idle < MostIdle)
        {
            await line.WaitAsync(TimeSpan.FromSeconds(5), CancellationToken.None);
            var more = line.Read(octets.AsSpan(done));
            idle = more == 0 ? idle + 1 : 0;
            done += more;
        }
        return octets[..done];
    }

    /// <summary>Waits until the line is closed, or fails after five seconds.</summary>
    public static async Task UntilClosedAsync(this SerialLine line)
    {
        for (var tries = 0; line.IsOpen && tries < 500; tries++)
            await Task.Delay(10);
        Assert.False(line.IsOpen, "The line should have closed by now.");
    }
}
