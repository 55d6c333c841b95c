namespace Bridge.Cli;

/// <summary>The first search for the endstops, for as long as a key is held.</summary>
internal static class DirectionsStep
{
    // Before a key repeats it is held for longer than between two repeats: half a second at common keyboards.
    private static readonly TimeSpan FirstHold = TimeSpan.FromMilliseconds(700);

    public static async Task<bool> DoAsync(Setup setup)
    {
        setup.Report.Line("A hand at the e-stop, the other holds the space bar. X goes first, then Y"
            + (setup.Hand.Machine.Z is null ? "." : "; Z first where its endstop is at the top, else last."));
        setup.Report.Line("An axis that goes away from its endstop: let the key go, switch off, and swap the two wires of one coil of its motor.");
        var key = await setup.Keys.NextAsync(() => !setup.HasEnded, setup.Device.PassAsync).ConfigureAwait(false);
        if (key is not { Key: ConsoleKey.Spacebar })
            return false;
        var began = setup.Device.Now;
        bool IsHeld() => setup.Keys.IsHeld(ConsoleKey.Spacebar) || setup.Device.Now - began < FirstHold;
        if (!await setup.Hand.ReferenceAsync(IsHeld).ConfigureAwait(false))
            return false;
        setup.Report.Line("All axes have found their endstops.");
        return await setup.AskYesAsync("Did each go straight to its own endstop, without a scrape or a stall?").ConfigureAwait(false);
    }
}
