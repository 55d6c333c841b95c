using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Has a machine reference again after a run that is complete, and tells how many steps it had lost.</summary>
internal sealed class LostStepsMeasuring(Report report, OperatorInput operating, Device device, Machine machine, ushort tokenBefore)
{
    /// <summary>Measures; null, and told, where it cannot be or may not be.</summary>
    public async Task<ReferencedAgain?> FindAsync(WorkedCells worked)
    {
        if (DescentCheck.FirstInTheWay(machine, worked) is { } inTheWay)
        {
            report.Line($"Lost steps are not measured: the head would come down on what was built at {inTheWay.Cell} on layer {inTheWay.Layer}.");
            return null;
        }

        report.Line("The machine references once more, slowly, to see whether it has lost steps. S stops that.");
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var hand = new MachineHand(dialogue, machine);
        operating.Operate(hand);
        var found = await ReferencedAgain.FindAsync(dialogue, hand, SessionToken.After(tokenBefore)).ConfigureAwait(false);
        report.Line(found is null
            ? $"Lost steps could not be measured: {hand.Trouble ?? "it was stopped."}"
            : $"Lost steps: {LostStepsWords.Of(found.Lost)}.");
        return found;
    }
}
