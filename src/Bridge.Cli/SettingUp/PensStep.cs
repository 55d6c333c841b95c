using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Each pen held down over the middle of the bed while its height is adjusted.</summary>
internal static class PensStep
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(1);

    public static async Task<bool> DoAsync(Setup setup)
    {
        var machine = setup.Hand.Machine;
        var heads = ((Head[])[Head.A, Head.B]).Where(head => machine.Tool(head) is HeadTool.Pen).ToList();
        if (heads.Count == 0)
        {
            setup.Report.Line("This machine has no pen: nothing to adjust.");
            return true;
        }

        try
        {
            setup.Hand.Machine = PenHold.On(machine);
            if (await Measuring.BeginAsync(setup).ConfigureAwait(false) is not { } run)
                return false;
            foreach (var head in heads)
                if (!await AdjustAsync(setup, run, head, (HeadTool.Pen)machine.Tool(head)!).ConfigureAwait(false))
                    return false;
            await setup.Hand.StopAsync().ConfigureAwait(false);
            return !setup.HasEnded;
        }
        finally
        {
            setup.Hand.Machine = machine;
        }
    }

    private static async Task<bool> AdjustAsync(Setup setup, HandRun run, Head head, HeadTool.Pen pen)
    {
        var (name, machine) = (RecordWords.Name(head), setup.Hand.Machine);
        if (!await run.GoAsync(new Position(new Cell(machine.X.Cells / 2, machine.Y.Cells / 2), 0, head)).ConfigureAwait(false))
            return false;
        var down = new PenDown(setup.Hand, setup.Device, run, setup.Keys);
        do
        {
            if (await setup.AskAsync($"Pen {name} is over the middle. Put paper there, take your hands away, then Enter lowers it.")
                .ConfigureAwait(false) is null)
                return false;
            setup.Report.Line($"Pen {name} is down, for {Longest.TotalSeconds:0} s at most: adjust it until it just draws. Any key lifts it, within a second.");
            if (!await down.HoldAsync(head, pen, Longest).ConfigureAwait(false))
                return false;
            setup.Report.Line($"Pen {name} is up.");
        }
        while (!await setup.AskYesAsync($"Does pen {name} touch the paper when it is down, and clear it when it is up?")
            .ConfigureAwait(false) && !setup.HasEnded);
        return !setup.HasEnded;
    }
}
