using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Panel;

namespace Panel.Tests;

/// <summary>Mock devices, whose e-stop and cable a test has in its hand; one of them may stand for the machine at a port.</summary>
internal sealed class SwiftDevices(Machine machine) : IDevices
{
    private MockPort? _last;

    /// <summary>The port's name; null for none.</summary>
    public string? Port { get; init; }

    /// <summary>What goes wrong with those that are opened from now on.</summary>
    public MockFaults Faults { get; set; } = MockFaults.None;

    public OpenDevice OpenMock(bool fast) => Open(fast ? new VirtualTime() : TimeProvider.System, "mock", isMock: true);

    public Task<(OpenDevice? Device, string Trouble)> OpenPortAsync() =>
        Task.FromResult<(OpenDevice?, string)>((Open(TimeProvider.System, Port!, isMock: false), ""));

    public void PressEStop() => _last!.ByHand(device => device.Gantry.PressEStop());

    public void ReleaseEStop() => _last!.ByHand(device => device.Gantry.ReleaseEStop());

    /// <summary>Where the carriage of the last one is, along X and Y in mm.</summary>
    public (double X, double Y) Carriage() => _last!.ByHand(device => (device.Gantry.X.PlaceMm, device.Gantry.Y.PlaceMm));

    public void CutCable() => _last!.Cut();

    private OpenDevice Open(TimeProvider time, string name, bool isMock)
    {
        var port = _last = MockPort.Of(machine, time, seed: 1, Faults);
        var line = port.Open();
        return new OpenDevice(line, time, name, isMock, null, () =>
        {
            line.Dispose();
            port.Dispose();
        });
    }
}
