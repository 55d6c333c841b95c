using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>How well each axis finds its zero again.</summary>
internal static class ReferencesStep
{
    private const int Times = 5;

    public static async Task<bool> DoAsync(Setup setup)
    {
        var places = new ReferencePlaces();
        for (var time = 0; time <= Times; time++)
        {
            if (!await setup.Hand.ReferenceAsync().ConfigureAwait(false) || await setup.Hand.LostStepsAsync().ConfigureAwait(false) is not { } lost)
                return false;
            if (time > 0) // before the first it was not known where it stood
                places.Add(lost);
        }

        var found = places.Axes.Select(axis => (axis.Axis, Spread: Spread.Of(axis.Mm))).ToList();
        foreach (var (axis, spread) in found)
            setup.Report.Line($"{axis}: {SpreadWords.Of(spread, " mm")}");
        if (found.Count == 0
            || !await setup.AskYesAsync("Is that good enough for what you want to make? If not, look at the endstops' mounts first.").ConfigureAwait(false))
            return false;
        if (await new MachineChange(setup.Report, setup.MachinePath).OfferAsync(
                [.. found.SelectMany(axis => Calibrations.Repeat(setup.Hand.Machine, axis.Axis, axis.Spread))],
                () => setup.AskYesAsync("Keep that in the machine file, to say how sure lost steps are?")).ConfigureAwait(false))
            setup.ReadAgain();
        return true;
    }
}
