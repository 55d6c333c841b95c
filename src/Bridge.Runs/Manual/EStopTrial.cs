using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>The e-stop's second contact is tried: it has to be seen to open, and then to stay closed. Nothing moves meanwhile.</summary>
public static class EStopTrial
{
    private static readonly TimeSpan Steady = TimeSpan.FromMilliseconds(300);

    /// <summary>Whether a device has to be tried: one that was just switched on or reset, or whose e-stop nobody has tried today.</summary>
    /// <param name="status">What the device says of itself.</param>
    /// <param name="wasTriedToday">Whether a record of today says that it was tried.</param>
    public static bool IsNeeded(Status status, bool wasTriedToday) => status.State switch
    {
        MachineState.Aborted when status.Cause == StateCause.EStop => status.Inputs.HasFlag(BoardInputs.EStopOpen) || !wasTriedToday,
        MachineState.Aborted => !wasTriedToday || status.Cause is StateCause.PowerOn or StateCause.Watchdog,
        MachineState.Held or MachineState.Suspended => false, // it would end a run that is to be gone on with
        _ => !wasTriedToday,
    };

    /// <summary>Waits until the e-stop was pressed and released; false where that did not come in time, or was given up.</summary>
    /// <param name="device">The device, at rest.</param>
    /// <param name="tell">Takes a line for the operator.</param>
    /// <param name="atMost">How long each of the two may take.</param>
    /// <param name="goesOn">Asked on and on; false gives it up.</param>
    public static async Task<bool> RunAsync(DeviceDialogue device, Action<string> tell, TimeSpan atMost, Func<bool> goesOn)
    {
        tell("Press the e-stop now: its contact at the board is to be seen to open.");
        if (!await SeeAsync(device, isOpen: true, TimeSpan.Zero, atMost, goesOn).ConfigureAwait(false))
            return Missed(tell, goesOn, "The contact never opened. Is it wired to the board? safety/WIRING.md shows how. Nothing was started.");
        tell("Seen open. Did the motors let go? Then release it.");
        if (!await SeeAsync(device, isOpen: false, Steady, atMost, goesOn).ConfigureAwait(false))
            return Missed(tell, goesOn, "The contact did not close and stay closed. Nothing was started.");
        tell("Seen closed again.");
        return true;
    }

    private static bool Missed(Action<string> tell, Func<bool> goesOn, string words)
    {
        tell(goesOn() ? words : "Given up. Nothing was started.");
        return false;
    }

    private static async Task<bool> SeeAsync(DeviceDialogue device, bool isOpen, TimeSpan steady, TimeSpan atMost, Func<bool> goesOn)
    {
        var until = device.Now + atMost;
        TimeSpan? since = null;
        await device.WaitAsync(
            () =>
            {
                since = device.Status!.Value.Inputs.HasFlag(BoardInputs.EStopOpen) != isOpen ? null : since ?? device.Now;
                return IsSeen() || !goesOn();
            },
            until - device.Now).ConfigureAwait(false);
        return device.Trouble is null && IsSeen() && goesOn();

        bool IsSeen() => since is { } from && device.Now - from >= steady;
    }
}
