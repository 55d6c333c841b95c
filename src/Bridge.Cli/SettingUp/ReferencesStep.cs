using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>How well each axis finds its zero again.</summary>
internal static class ReferencesStep
{
    private const int Times = 5;

    public static async Task<bool> DoAsync(Setup setup)
    {
        var offs = new Dictionary<AxisName, List<double>>();
        for (var time = 0; time <= Times; time++)
        {
            if (!await setup.Hand.ReferenceAsync().ConfigureAwait(false) || await setup.Hand.LostStepsAsync().ConfigureAwait(false) is not { } lost)
                return false;
            if (time > 0) // before the first it was not known where it stood
                foreach (var axis in lost)
                    (offs.TryGetValue(axis.Axis, out var list) ? list : offs[axis.Axis] = []).Add(axis.Mm);
        }

        foreach (var (axis, mm) in offs)
            setup.Report.Line($"{axis}: {SpreadWords.Of(Spread.Of(mm), " mm")}");
        return offs.Count > 0
            && await setup.AskYesAsync("Is that good enough for what you want to make? If not, look at the endstops' mounts first.").ConfigureAwait(false);
    }
}
