using Polly;
using Polly.Retry;

namespace Bridge.Serial;

/// <summary>Opens serial ports as lines.</summary>
public static class SerialLines
{
    private const int LongestPortName = 255;
    private const int HighestBaud = 4_000_000;

    /// <summary>Opens a port with eight data bits, no parity and one stop bit. What may pass is tried again, a bounded number of times.</summary>
    /// <param name="portName">The port, such as /dev/ttyACM0 or COM3; at most 255 characters.</param>
    /// <param name="baud">Bits in a second, 1 to 4 000 000.</param>
    /// <param name="options">How it is opened and used.</param>
    /// <param name="time">The clock for pauses and time-outs.</param>
    /// <param name="cancellation">Gives up between two tries or in the settle pause.</param>
    /// <exception cref="ArgumentOutOfRangeException">An option is out of its range.</exception>
    /// <exception cref="OperationCanceledException">Opening was cancelled; the port is closed.</exception>
    public static async Task<SerialOpening> OpenAsync(
        string portName, int baud, SerialLineOptions options, TimeProvider time, CancellationToken cancellation)
    {
        options.Check();
        if (portName.Length is 0 or > LongestPortName || portName.Contains('\0'))
            return new SerialOpening.Refused(
                $"A port's name has 1 to {LongestPortName} characters; this one has {portName.Length}, or a zero among them.",
                "Give the name of a port.", MayPass: false);
        if (baud is < 1 or > HighestBaud)
            return new SerialOpening.Refused(
                $"{baud} baud is not possible: 1 to {HighestBaud} is.", "Correct the baud rate in the machine file.", MayPass: false);
        return await Retries(options, time)
            .ExecuteAsync(async token => await SerialDoor.OpenAsync(portName, baud, options, time, token).ConfigureAwait(false), cancellation)
            .ConfigureAwait(false);
    }

    private static ResiliencePipeline<SerialOpening> Retries(SerialLineOptions options, TimeProvider time)
    {
        if (options.Tries == 1)
            return ResiliencePipeline<SerialOpening>.Empty;
        return new ResiliencePipelineBuilder<SerialOpening> { TimeProvider = time }
            .AddRetry(new RetryStrategyOptions<SerialOpening>
            {
                ShouldHandle = tried => ValueTask.FromResult(tried.Outcome.Result is SerialOpening.Refused { MayPass: true }),
                MaxRetryAttempts = options.Tries - 1,
                BackoffType = DelayBackoffType.Exponential,
                Delay = options.FirstPause,
                MaxDelay = options.LongestPause,
                UseJitter = true,
                Randomizer = new Random(options.JitterSeed).NextDouble,
            })
            .Build();
    }
}
