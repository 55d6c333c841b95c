using System.Globalization;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>What steps that measure have in common: places to go to, and readings to ask for.</summary>
internal static class Measuring
{
    /// <summary>The axes that are measured with a ruler on the bed.</summary>
    public static readonly AxisName[] Axes = [AxisName.X, AxisName.Y];

    /// <summary>A run by hand on a machine that was referenced just now; null where it could not be.</summary>
    public static async Task<HandRun?> BeginAsync(Setup setup) => await setup.Hand.ReferenceAsync().ConfigureAwait(false)
        ? new HandRun(setup.Hand, setup.Device, RunNumber.New())
        : null;

    /// <summary>Goes to a cell along one axis, the middle of the other.</summary>
    public static Task<bool> GoAsync(Setup setup, HandRun run, AxisName axis, int cell)
    {
        var machine = setup.Hand.Machine;
        var to = axis == AxisName.X ? new Cell(cell, machine.Y.Cells / 2) : new Cell(machine.X.Cells / 2, cell);
        return run.GoAsync(new Position(to, 0, Head.A));
    }

    /// <summary>Readings in mm; none where the person types none.</summary>
    public static async Task<double[]> AskReadingsAsync(Setup setup, string question)
    {
        while (true)
        {
            var words = (await setup.AskAsync(question).ConfigureAwait(false) ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
            var numbers = words.Select(word => double.TryParse(word, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture, out var number) ? number : double.NaN).ToArray();
            if (numbers.All(double.IsFinite))
                return numbers;
            setup.Report.Line("Type numbers in mm, with a point, such as 59.5 59.4; or Enter alone.");
        }
    }

    /// <summary>The smallest division that the person reads.</summary>
    public static async Task<double> AskRulerAsync(Setup setup) =>
        await AskReadingsAsync(setup, "What is the smallest division that you read, in mm? Enter alone for 0.5.").ConfigureAwait(false) is [> 0 and var mm, ..]
            ? mm
            : 0.5;

    /// <summary>Offers new values, and goes on with the machine as it then is.</summary>
    public static async Task OfferAsync(Setup setup, Func<IReadOnlyList<Calibrated>> find)
    {
        try
        {
            var change = new MachineChange(setup.Report, setup.MachinePath);
            if (await change.OfferAsync(find(), () => setup.AskYesAsync($"Change {setup.MachinePath}?")).ConfigureAwait(false))
                setup.ReadAgain();
        }
        catch (RefusedException refused)
        {
            setup.Report.Refused(refused); // the axis stays as it is, and can be measured again
        }
    }
}

/// <summary>Steps for a mm, axis by axis.</summary>
internal static class ScaleStep
{
    public static async Task<bool> DoAsync(Setup setup)
    {
        var ruler = await Measuring.AskRulerAsync(setup).ConfigureAwait(false);
        foreach (var name in Measuring.Axes)
        {
            if (await Measuring.BeginAsync(setup).ConfigureAwait(false) is not { } run)
                return false;
            var axis = Calibrations.AxisOf(setup.Hand.Machine, name);
            if (!await Measuring.GoAsync(setup, run, name, 0).ConfigureAwait(false))
                return false;
            await setup.AskAsync($"{name} is at its first cell. Note where it stands, then Enter.").ConfigureAwait(false);
            if (!await Measuring.GoAsync(setup, run, name, axis.Cells - 1).ConfigureAwait(false))
                return false;
            var told = (axis.Cells - 1) * axis.PitchMm;
            var readings = await Measuring.AskReadingsAsync(setup, FormattableString.Invariant(
                $"{name} was told to go {told:0.###} mm. How far did it go, in mm? Several readings are better.")).ConfigureAwait(false);
            await setup.Hand.StopAsync().ConfigureAwait(false);
            if (readings.Length > 0)
                await Measuring.OfferAsync(setup, () => [Calibrations.Scale(setup.Hand.Machine, name, told, Measured.Of("measured", readings, ruler))])
                    .ConfigureAwait(false);
        }

        return !setup.HasEnded;
    }
}

/// <summary>Play, axis by axis.</summary>
internal static class BacklashStep
{
    public static async Task<bool> DoAsync(Setup setup)
    {
        var ruler = await Measuring.AskRulerAsync(setup).ConfigureAwait(false);
        foreach (var name in Measuring.Axes)
        {
            if (await Measuring.BeginAsync(setup).ConfigureAwait(false) is not { } run)
                return false;
            var middle = Calibrations.AxisOf(setup.Hand.Machine, name).Cells / 2;
            if (!await Measuring.GoAsync(setup, run, name, 0).ConfigureAwait(false) || !await Measuring.GoAsync(setup, run, name, middle).ConfigureAwait(false))
                return false;
            var below = await Measuring.AskReadingsAsync(
                setup, $"{name} came to cell {middle} from below. Where does it stand, in mm on any scale?").ConfigureAwait(false);
            if (!await Measuring.GoAsync(setup, run, name, 2 * middle - 1).ConfigureAwait(false)
                || !await Measuring.GoAsync(setup, run, name, middle).ConfigureAwait(false))
                return false;
            var above = await Measuring.AskReadingsAsync(
                setup, $"{name} came to cell {middle} from above. Where does it stand, on the same scale?").ConfigureAwait(false);
            await setup.Hand.StopAsync().ConfigureAwait(false);
            if (below.Length > 0 && above.Length > 0)
                await Measuring.OfferAsync(setup, () => [Calibrations.Backlash(setup.Hand.Machine, name,
                    Measured.Of("from below", below, ruler), Measured.Of("from above", above, ruler))]).ConfigureAwait(false);
        }

        return !setup.HasEnded;
    }
}
