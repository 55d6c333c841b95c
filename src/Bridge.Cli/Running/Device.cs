using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Serial;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>What executes a run: an open line, the clock that it lives by, and a name for the records.</summary>
internal sealed record Device(ILine Line, TimeProvider Time, string Name, MockPort? Mock) : IDisposable
{
    public const string MockName = "mock";

    /// <summary>How long a board gets to start when its port is opened: a boot loader waits a second or two for its own programmer (common practice).</summary>
    public static TimeSpan SettlePause { get; } = TimeSpan.FromSeconds(2);

    /// <summary>The mock device as the machine file describes it, in real time or, if fast, in time that passes at once.</summary>
    public static Device OfMock(Machine machine, bool fast, int seed, MockFaults faults)
    {
        TimeProvider time = fast ? new VirtualTime() : TimeProvider.System;
        var port = MockPort.Of(machine, time, seed, faults);
        return new Device(port.Open(), time, fast ? $"{MockName}, fast, seed {seed}" : $"{MockName}, seed {seed}", port);
    }

    /// <summary>Opens a serial port and waits until a board that resets on it can listen.</summary>
    public static Task<SerialOpening> OpenPortAsync(string portName, int baud) =>
        SerialLines.OpenAsync(portName, baud, new SerialLineOptions { SettlePause = SettlePause }, TimeProvider.System, CancellationToken.None);

    /// <summary>The board on an open port.</summary>
    public static Device OfPort(SerialLine line) => new(line, TimeProvider.System, line.PortName, Mock: null);

    public void Dispose()
    {
        Line.Dispose();
        Mock?.Dispose();
    }
}
