using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>The pattern is drawn, by the machine as the file has it now.</summary>
internal static class PatternStep
{
    public static async Task<bool> DoAsync(Setup setup)
    {
        var job = PatternWords.Prove(setup.Hand.Machine);
        if (await setup.AskAsync("Fix a fresh sheet, or clear the bed. A hand at the e-stop; Enter draws.").ConfigureAwait(false) is null)
            return false;
        if (await Measuring.BeginAsync(setup).ConfigureAwait(false) is not { } run)
            return false;
        var passes = new PassReader(job.Job.Image, job.Machine.Grid);
        while (passes.TryNext(out var pass))
            if (!await run.DoAsync(pass.Record, pass.After).ConfigureAwait(false))
                return false;
        await setup.Hand.StopAsync().ConfigureAwait(false);
        return await setup.AskYesAsync("Is it there whole: a line along X, one along Y, a mark at the far corner"
            + (job.Machine.B is null ? "?" : ", and a short line each way of which each head made a half?")).ConfigureAwait(false);
    }
}

/// <summary>Where head b is, from the lines that both heads drew.</summary>
internal static class OffsetStep
{
    public static async Task<bool> DoAsync(Setup setup)
    {
        var machine = setup.Hand.Machine;
        if (machine.B is null)
        {
            setup.Report.Line("This machine has head a alone: nothing to measure.");
            return true;
        }

        var ruler = await Measuring.AskRulerAsync(setup).ConfigureAwait(false);
        var x = await Measuring.AskReadingsAsync(setup, $"Look at the line along Y at x = {CalibrationPattern.LineAlongY(machine)}. "
            + "How far does b's half lie from a's along X, in mm? Below 0 towards x = 0.").ConfigureAwait(false);
        var y = await Measuring.AskReadingsAsync(setup, $"Look at the line along X at y = {CalibrationPattern.LineAlongX(machine)}. "
            + "How far does b's half lie from a's along Y, in mm? Below 0 towards y = 0.").ConfigureAwait(false);
        if (x.Length > 0 && y.Length > 0 && !setup.HasEnded)
            await Measuring.OfferAsync(setup, () =>
            {
                var (alongX, alongY) = Calibrations.HeadOffset(machine, Measured.Of("along X", x, ruler), Measured.Of("along Y", y, ruler));
                return [alongX, alongY];
            }).ConfigureAwait(false);
        return !setup.HasEnded;
    }
}

/// <summary>The angle between X and Y, from the pattern's diagonals. It is put right with the frame, so the file has no key for it.</summary>
internal static class SquareStep
{
    public static async Task<bool> DoAsync(Setup setup)
    {
        var (sideX, sideY) = CalibrationPattern.SidesMm(setup.Hand.Machine);
        var ruler = await Measuring.AskRulerAsync(setup).ConfigureAwait(false);
        while (!setup.HasEnded)
        {
            var rising = await Measuring.AskReadingsAsync(setup, "How far is it from the corner where the two lines meet to the far mark, in mm?")
                .ConfigureAwait(false);
            var falling = rising.Length == 0 ? [] : await Measuring.AskReadingsAsync(setup,
                "And from the far end of one line to the far end of the other, in mm?")
                .ConfigureAwait(false);
            if (falling.Length == 0)
                break;
            try
            {
                SquarenessWords.Tell(setup.Report, Squareness.Of(sideX, sideY,
                    Measured.Of("corner to mark", rising, ruler), Measured.Of("end to end", falling, ruler)));
            }
            catch (RefusedException refused)
            {
                setup.Report.Refused(refused);
                continue;
            }

            return await setup.AskYesAsync("Is that good enough? If not, turn the frame, draw the pattern once more (--again pattern), and go on here.")
                .ConfigureAwait(false);
        }

        return !setup.HasEnded;
    }
}
