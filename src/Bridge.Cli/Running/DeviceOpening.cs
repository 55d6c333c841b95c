using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Serial;

namespace Bridge.Cli;

/// <summary>Opens what a person named as the device, with words about it.</summary>
internal static class DeviceOpening
{
    /// <summary>The mock device, by default in time that passes at once, or the board on a port; null, and told, where the port cannot be opened.</summary>
    public static async Task<Device?> OpenAsync(Report report, string name, Machine machine, bool isFast = true)
    {
        if (name == Device.MockName)
            return Device.OfMock(machine, isFast, seed: 1, MockFaults.None);
        return await OpenPortAsync(report, name, machine).ConfigureAwait(false);
    }

    /// <summary>The mock device as it is asked for, or the board on a port; null, and told, where the port cannot be opened.</summary>
    public static async Task<Device?> OpenAsync(Report report, RunOptions options, Machine machine)
    {
        if (options.Device == Device.MockName)
            return Device.OfMock(machine, options.Fast, options.Seed, options.Faults);
        return await OpenPortAsync(report, options.Device, machine).ConfigureAwait(false);
    }

    /// <summary>The board on a port; null, and told, where it cannot be opened.</summary>
    public static async Task<Device?> OpenPortAsync(Report report, string name, Machine machine)
    {
        if (BaudError.Caution(machine.Baud) is { } caution)
            report.Line(caution);
        report.Line($"Opening {name} at {machine.Baud} baud. Many boards reset on that, so it gets {Device.SettlePause.TotalSeconds:0} s to start.");
        switch (await Device.OpenPortAsync(name, machine.Baud).ConfigureAwait(false))
        {
            case SerialOpening.Opened opened:
                return Device.OfPort(opened.Line);
            case SerialOpening.Refused refused:
                report.Problem($"Refused: --device {name}: {refused.Because} {refused.Action} bridge ports lists what there is.");
                return null;
            default:
                throw new UnreachableException();
        }
    }
}
