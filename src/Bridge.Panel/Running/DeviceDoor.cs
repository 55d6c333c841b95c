using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Panel;

/// <summary>The way to a device for a run and for a hand: the checklist answered, the machine taken, the device opened.</summary>
internal sealed class DeviceDoor(PanelSetting setting, BeforeMotion before, Occupancy occupancy)
{
    /// <summary>Opens what is asked for; without a device the machine is left to others, and the trouble says why.</summary>
    /// <param name="who">Who takes the machine, in words.</param>
    /// <param name="on">mock or device.</param>
    /// <param name="fast">Whether the mock device's time passes at once.</param>
    /// <param name="answers">Who looked the real machine over.</param>
    /// <param name="taken">Called once the machine is taken, before the device is opened: what is asked for from then on must not be forgotten.</param>
    /// <exception cref="RefusedException">Neither is asked for, or the checklist is not answered.</exception>
    public async Task<(OpenDevice? Device, ChecklistRecord? Looked, RunTrouble? Trouble)> TryOpenAsync(
        string who, string? on, bool fast, LookedOver answers, Action taken)
    {
        var onDevice = on == "device";
        if (!onDevice && on != "mock")
            throw new RefusedException("on", on is { Length: <= 20 } ? on : "nothing", "mock or device", "Choose one.");
        if (onDevice && setting.Devices.Port is null)
            return (null, null, new RunTrouble(true, "There is no device but the mock: start the panel with --device and a port."));
        var looked = onDevice ? before.Take(answers) : null;
        if (!occupancy.TryTake(who))
            return (null, null, new RunTrouble(true, $"{occupancy.By ?? "Something"} has the machine."));
        OpenDevice? device = null;
        try
        {
            taken();
            (device, var trouble) = onDevice ? await setting.Devices.OpenPortAsync().ConfigureAwait(false) : (setting.Devices.OpenMock(fast), "");
            return (device, looked, device is null ? new RunTrouble(false, trouble) : null);
        }
        finally
        {
            if (device is null)
                occupancy.Leave();
        }
    }
}
