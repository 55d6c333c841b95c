using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Panel.Tests;

/// <summary>Devices of tests: mock devices that fail as they are told, and one that stands for the real machine at a port.</summary>
internal sealed class TestDevices(Machine machine, string? port = null, MockFaults? faults = null) : IDevices
{
    private VirtualTime? _virtual;

    public string? Port => port;

    /// <summary>The device that was opened last, for a hand at the machine.</summary>
    public MockPort? Last { get; private set; }

    /// <summary>Why the port cannot be opened; null where it can.</summary>
    public string? PortTrouble { get; set; }

    /// <summary>Called whenever the program looks at a device's clock, which is then virtual for each of them; null where it is not watched.</summary>
    public Action? Watch { get; init; }

    /// <summary>Whether the device stays switched on, as it is, when a program leaves it, and the next one finds it so.</summary>
    public bool StaysOn { get; init; }

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
        var clock = time;
        if (Watch is { } watch)
        {
            _virtual ??= new VirtualTime();
            time = _virtual;
            clock = new WatchedClock(time, watch);
        }

        var opened = Last = StaysOn && Last is { } on ? on : MockPort.Of(machine, time, seed: 1, faults);
        var line = opened.Open();
        return new OpenDevice(line, clock, name, isMock, null, () =>
        {
            line.Dispose();
            if (!StaysOn)
                opened.Dispose();
        });
    }
}
