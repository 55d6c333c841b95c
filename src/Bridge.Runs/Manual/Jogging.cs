using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Hold to run: leave to move is given on and on for as long as somebody holds, and the motion ends by itself when it is not.</summary>
internal static class Jogging
{
    /// <summary>A jog is leave for 40 ms, so one that is late by a scheduler's whim does not make the motion stutter.</summary>
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(20);

    /// <summary>The device is at rest within 100 ms of the last leave that it heard.</summary>
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(100);

    public static async Task MoveAsync(DeviceDialogue device, AxisName axis, bool isUp, Func<bool> isHeld)
    {
        while (device.Trouble is null && isHeld())
        {
            device.Jog(new Jog((byte)axis, isUp));
            await device.PassAsync(Interval).ConfigureAwait(false);
        }

        await device.PassAsync(Rest).ConfigureAwait(false);
    }
}
