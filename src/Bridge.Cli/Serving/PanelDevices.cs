using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Panel;
using Bridge.Serial;

namespace Bridge.Cli;

/// <summary>The panel's devices: the mock device as the machine file describes it, and the port that was named.</summary>
internal sealed class PanelDevices(Report report, Machine machine, string device, MockFaults faults, int seed) : IDevices
{
    public string? Port => device == Device.MockName ? null : device;

    public OpenDevice OpenMock(bool fast)
    {
        var mock = Device.OfMock(machine, fast, seed, faults);
        return new OpenDevice(mock.Line, mock.Time, mock.Name, IsMock: true, told => MockTruth.Differing(mock.Mock!, told, machine.Grid), mock.Dispose);
    }

    public async Task<(OpenDevice? Device, string Trouble)> OpenPortAsync()
    {
        if (BaudError.Caution(machine.Baud) is { } caution)
            report.Line(caution);
        switch (await Device.OpenPortAsync(device, machine.Baud).ConfigureAwait(false))
        {
            case SerialOpening.Opened opened:
                var board = Device.OfPort(opened.Line);
                return (new OpenDevice(board.Line, board.Time, board.Name, IsMock: false, null, board.Dispose), "");
            case SerialOpening.Refused refused:
                return (null, $"{device}: {refused.Because} {refused.Action}");
            default:
                throw new UnreachableException();
        }
    }
}
