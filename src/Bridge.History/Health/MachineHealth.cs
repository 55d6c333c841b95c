using System.Globalization;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>A machine over its runs: steps lost, how long it takes to reference, hours and way, with limits.</summary>
/// <param name="Machine">The machine's name.</param>
/// <param name="Points">What each run tells, the oldest first.</param>
public sealed record MachineHealth(string Machine, IReadOnlyList<HealthPoint> Points)
{
    /// <summary>The most runs that are looked at, the newest: 500.</summary>
    public const int MostRuns = 500;

    private IReadOnlyList<double> References => [.. Points.Where(point => point.ReferenceSeconds is not null).Select(point => point.ReferenceSeconds!.Value)];

    /// <summary>What somebody should look at, in words; none where all is well.</summary>
    public IReadOnlyList<string> Warnings => [.. Axes.SelectMany(axis => WarningsOf(axis, Lost(axis))), .. OfReferences()];

    /// <summary>The warnings, or why there are none.</summary>
    public string Finding => Warnings.Count > 0 ? string.Join(' ', Warnings)
        : Points.Count == 0 ? "It has no run yet."
        : !Axes.Any() ? "Whether it loses steps is not known: no run measured it (bridge run --lost-steps measure)."
        : "Nothing stands out.";

    /// <summary>The axes that were measured.</summary>
    public IEnumerable<AxisName> Axes => Points.SelectMany(point => point.Lost).Select(lost => lost.Axis).Distinct().Order();

    /// <summary>The steps that an axis had lost, run by run.</summary>
    public IReadOnlyList<double> Lost(AxisName axis) =>
        [.. Points.SelectMany(point => point.Lost).Where(lost => lost.Axis == axis).Select(lost => (double)lost.Steps)];

    /// <summary>The page of it.</summary>
    public Page ToPage()
    {
        var measured = Points.Count(point => point.Lost.Count > 0);
        var sections = new List<Section>
        {
            new("The machine", new Block.Facts(
                ("runs", $"{Points.Count}, {measured} of them measured"),
                ("at work", FormattableString.Invariant($"{Points.Sum(point => point.WorkSeconds) / 3600:0.00} h")),
                ("way", FormattableString.Invariant($"{Points.Sum(point => point.TravelMm ?? 0) / 1000:0.0} m")))),
        };
        foreach (var axis in Axes)
            sections.Add(new Section($"Axis {axis}", [.. OfAxis(axis)]));
        if (References.Count > 0)
            sections.Add(new Section("References", ChartOf("seconds to reference, run by run", References)));
        sections.Add(new Section("Runs", new Block.Table(["run", "at work, s", "way, m", "to reference, s", "steps lost"],
            [.. Points.Reverse().Take(100).Select(point =>
            (IReadOnlyList<string>)[point.Run, Number(point.WorkSeconds, "0.0"), Number(point.TravelMm / 1000, "0.00"), Number(point.ReferenceSeconds, "0.0"),
                string.Join(", ", point.Lost.Select(lost => $"{lost.Axis} {lost.Steps}"))])], 1)));
        return new Page($"Health of {Machine}", Finding, sections);
    }

    private IEnumerable<Block> OfAxis(AxisName axis)
    {
        var lost = Lost(axis);
        yield return ChartOf("steps lost, run by run", lost);
        if (lost.Count > 1 && Spread.Of(lost) is var spread)
            yield return new Block.Words(FormattableString.Invariant(
                $"Last {lost[^1]} steps, uncertain by {2 * spread.Deviation:0.##} (twice the deviation of all {spread.Count}, which is how well it repeats)."));
        if (LastOf(axis) is { UncertaintyMm: { } uncertainty } last)
            yield return new Block.Words(FormattableString.Invariant($"Last {last.Mm:0.###} mm, give or take {Measured.Coverage * uncertainty:0.###} mm ")
                + "(two standard uncertainties, by the repeatability that was measured and stands in the machine file).");
        foreach (var warning in WarningsOf(axis, lost))
            yield return new Block.Words(warning, IsWarning: true);
    }

    private LostSteps? LastOf(AxisName axis) => Points.SelectMany(point => point.Lost).LastOrDefault(lost => lost.Axis == axis);

    private static IEnumerable<string> WarningsOf(AxisName axis, IReadOnlyList<double> lost)
    {
        if (lost.Count == 0)
            yield break;
        var last = lost[^1];
        if (Math.Abs(last) > LostLimit.Steps)
            yield return FormattableString.Invariant(
                $"Axis {axis} lost {last} steps in its last run: look at the belt, its pulleys and what the carriage runs against.");
        else if (ControlLimits.Of([.. lost.SkipLast(1)]) is { } limits && limits.IsBeyond(last))
            yield return FormattableString.Invariant(
                $"Axis {axis} is beyond the limits of its own runs ({limits.Lower:0.#} to {limits.Upper:0.#} steps): look at the belt.");
    }

    private IEnumerable<string> OfReferences()
    {
        if (References is [.., var last] && ControlLimits.Of([.. References.SkipLast(1)]) is { } limits && last > limits.Upper + JobTimes.ResolutionSeconds)
            yield return FormattableString.Invariant($"It took {last:0.0} s to reference, and at most {limits.Upper:0.0} s before: look at its endstops.");
    }

    private static Block.Chart ChartOf(string title, IReadOnlyList<double> values) => ControlLimits.Of(values) is { } limits
        ? new Block.Chart(title, values, limits.Center, limits.Lower, limits.Upper)
        : new Block.Chart($"{title} (limits from {ControlLimits.Least} runs on)", values, null, null, null);

    private static string Number(double? value, string form) => value?.ToString(form, CultureInfo.InvariantCulture) ?? "";
}
