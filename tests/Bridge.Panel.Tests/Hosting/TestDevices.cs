using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Panel.Tests;

/// <summary>Devices of tests: mock devices that fail as they are told, and one that stands for the real machine at a port.</summary>
internal sealed class TestDevices(Machine machine, string? port = null, MockFaults? faults = null) : IDevices
{
    public string? Port => port;

    /// <summary>The device that was opened last, for a hand at the machine.</summary>
    public MockPort? Last { get; private set; }

    /// <summary>Why the port cannot be opened; null where it can.</summary>
    public string? PortTrouble { get; set; }

    public OpenDevice OpenMock(bool fast) => Open(fast ? new VirtualTime() : TimeProvider.System, "mock", isMock: true);

    /// <summary>Ends when the port may open: a real one takes seconds.</summary>
    public Task MayOpen { get; set; } = Task.CompletedTask;

    public async Task<(OpenDevice? Device, string Trouble)> OpenPortAsync()
    {
        await MayOpen;
        return PortTrouble is { } trouble ? (null, trouble) : (Open(TimeProvider.System, port!, isMock: false), "");
    }

    private OpenDevice Open(TimeProvider time, string name, bool isMock)
    {
        var opened = Last = MockPort.Of(machine, time, seed: 1, faults);
        var line = opened.Open();
        return new OpenDevice(line, time, name, isMock, null, () =>
        {
            line.Dispose();
            opened.Dispose();
        });
    }
}
