using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>Each endstop pressed by hand, and no other seen.</summary>
internal static class ContactsStep
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(50);

    private const BoardInputs Endstops = BoardInputs.EndstopX | BoardInputs.EndstopY | BoardInputs.EndstopZ;

    public static async Task<bool> DoAsync(Setup setup)
    {
        if (setup.IsMock)
        {
            setup.Report.Line("The mock device has no endstops that a hand could press: left out in this rehearsal.");
            return true;
        }

        BoardInputs[] endstops = [BoardInputs.EndstopX, BoardInputs.EndstopY, BoardInputs.EndstopZ];
        foreach (var endstop in endstops.Take(setup.Hand.Machine.Z is null ? 2 : 3))
            if (!await SeeAsync(setup, endstop).ConfigureAwait(false))
                return false;
        return true;
    }

    private static async Task<bool> SeeAsync(Setup setup, BoardInputs endstop)
    {
        var name = $"{endstop}"[^1];
        if (!await UntilAsync(setup, BoardInputs.None, "Leave all endstops free. What reads as reached now: ").ConfigureAwait(false))
            return false;
        setup.Report.Line($"Press the endstop of {name} by hand, and hold it.");
        if (!await UntilAsync(setup, endstop, $"Not {name} alone, but: ").ConfigureAwait(false))
            return false;
        setup.Report.Line($"Seen: {name}. Let it go.");
        return await UntilAsync(setup, BoardInputs.None, "Still reached: ", known: endstop).ConfigureAwait(false);
    }

    // Tells whatever else is seen, once each time that it changes.
    private static async Task<bool> UntilAsync(Setup setup, BoardInputs wanted, string otherwise, BoardInputs known = BoardInputs.None)
    {
        var told = known;
        while (!setup.HasEnded)
        {
            var now = setup.Hand.Status!.Value.Inputs & Endstops;
            if (now == wanted)
                return true;
            if (now != told && now != BoardInputs.None)
                setup.Report.Line($"{otherwise}{now}. Swap the wires of what is mixed up, or mend a cut one.");
            told = now;
            if (!await setup.Hand.LookAsync(Interval).ConfigureAwait(false))
                return false;
        }

        return false;
    }
}
