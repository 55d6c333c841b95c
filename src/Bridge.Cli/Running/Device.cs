using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>What executes a run: an open line, the clock that it lives by, and a name for the records.</summary>
internal sealed record Device(ILine Line, TimeProvider Time, string Name, MockPort? Mock) : IDisposable
{
    public const string MockName = "mock";

    /// <summary>The mock device as the machine file describes it, in real time or, if fast, in time that passes at once.</summary>
    public static Device OfMock(Machine machine, bool fast, int seed, MockFaults faults)
    {
        TimeProvider time = fast ? new VirtualTime() : TimeProvider.System;
        var port = MockPort.Of(machine, time, seed, faults);
        return new Device(port.Open(), time, fast ? $"{MockName}, fast, seed {seed}" : $"{MockName}, seed {seed}", port);
    }

    public void Dispose()
    {
        Line.Dispose();
        Mock?.Dispose();
    }
}
