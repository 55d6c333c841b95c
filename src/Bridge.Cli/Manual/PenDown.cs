using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>A pen held down while a person adjusts it: until a key, for a bounded time, and lifted whatever happens.</summary>
/// <param name="hand">The machine, referenced as <see cref="PenHold.On"/> has it.</param>
/// <param name="device">The dialogue with it.</param>
/// <param name="run">A run by hand that has come to the place.</param>
/// <param name="keys">Where a key comes from; null where nobody presses any.</param>
internal sealed class PenDown(MachineHand hand, DeviceDialogue device, HandRun run, HandKeys? keys)
{
    /// <summary>Down, and up again; false where the machine could not go on.</summary>
    /// <param name="head">The head with the pen.</param>
    /// <param name="pen">The pen as the machine file has it.</param>
    /// <param name="atMost">The longest, up to <see cref="PenHold.Longest"/>.</param>
    public async Task<bool> HoldAsync(Head head, HeadTool.Pen pen, TimeSpan atMost)
    {
        keys?.Forget(); // what was typed before it is down does not lift it
        var isDone = await run.HoldAsync(head, () => keys?.TryTake() is not true, atMost).ConfigureAwait(false);
        await device.PassAsync(pen.Lift).ConfigureAwait(false); // the device was told that it takes none
        return isDone && !hand.IsInterrupted;
    }
}
