using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Has a machine reference again after a run that is complete, where somebody wants it, and tells how many steps it had lost.</summary>
internal sealed class LostStepsMeasuring(
    Report report, LostStepsChoice choice, OperatorInput operating, Device device, Machine machine)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    /// <summary>Says before a run what it will do beside its job: on a real machine, and where layers are not measured on any.</summary>
    public static void Announce(Report report, RunOptions options, IReadOnlyList<LayerChange> changes)
    {
        if (options.MeasuresLayers && changes.FirstOrDefault(change => change.InTheWay is not null) is { InTheWay: { } inTheWay } barred)
            report.Line($"From layer {barred.Layer} on lost steps are not measured: the head would come down on what was built at {inTheWay.Cell} "
                + $"on layer {inTheWay.Layer}.");
        var free = changes.Count(change => change.InTheWay is null);
        if (options.Device != Device.MockName)
            report.Line(ChoiceOf(report, options) switch
            {
                LostStepsChoice.Layers when free > 0 => $"At {Counted.Of(free, "change")} of layer, and after a complete run, "
                    + "THE MACHINE REFERENCES: the head comes down beside what was built and is led up again. Stay by it.",
                LostStepsChoice.Measure or LostStepsChoice.Layers =>
                    "After a complete run THE MACHINE MOVES ONCE MORE: it references, slowly, to tell how many steps it lost.",
                LostStepsChoice.Ask => "After a complete run you are asked whether the machine may reference once more, to tell how many steps it lost. "
                    + $"It does not move again without a yes, for which {Patience.TotalSeconds:0} s are left.",
                _ => "After a complete run the machine does not move again; how many steps it lost is told with --lost-steps measure.",
            });
    }

    /// <summary>What was chosen, or follows where nothing was: the mock device moves nothing, and where nobody is at a terminal nobody can say yes.</summary>
    public static LostStepsChoice ChoiceOf(Report report, RunOptions options) => options.LostSteps switch
    {
        LostStepsChoice.Ask when options.Device == Device.MockName => LostStepsChoice.Measure,
        LostStepsChoice.Ask when options.Unattended || !report.IsAttended => LostStepsChoice.Skip,
        var chosen => chosen,
    };

    /// <summary>Measures after a run; null, and told, where it cannot be, may not be, or is not wanted.</summary>
    /// <param name="session">The run, which has ended; what is asked of it from now on is asked of what is done here.</param>
    /// <param name="worked">What was worked.</param>
    public async Task<ReferencedAgain?> FindAsync(RunSession session, WorkedCells worked)
    {
        if (choice == LostStepsChoice.Skip)
            return null;
        if (DescentCheck.FirstInTheWay(machine, worked) is { } inTheWay)
        {
            report.Line($"Lost steps are not measured: the head would come down on what was built at {inTheWay.Cell} on layer {inTheWay.Layer}.");
            return null;
        }

        if (choice == LostStepsChoice.Ask && !await IsWantedAsync().ConfigureAwait(false))
        {
            report.Line("Lost steps are not measured: the machine stays where it is.");
            return null;
        }

        report.Line("The machine references once more, slowly, to see whether it has lost steps. S stops that.");
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var hand = new MachineHand(dialogue, machine);
        operating.Operate(hand);
        session.Controller.HandOver(operating.Request);
        var found = await ReferencedAgain.FindAsync(dialogue, hand, SessionToken.After(session.Token)).ConfigureAwait(false);
        report.Line(found is null
            ? $"Lost steps could not be measured: {hand.Trouble ?? "it was stopped."}"
            : $"Lost steps: {LostStepsWords.Of(found.Lost)}.");
        return found;
    }

    private Task<bool> IsWantedAsync() => operating.IsYesAsync(
        $"The run is complete. May the machine MOVE once more, to reference and tell how many steps it lost? Y for yes, within {Patience.TotalSeconds:0} s; "
        + "any other key, or none, for no.", Patience);
}
