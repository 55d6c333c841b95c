using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>How far each axis was off, as people say it.</summary>
internal static class LostStepsWords
{
    public static string Of(IReadOnlyList<LostSteps> lost) => lost.Count == 0
        ? "where it stood before was not known"
        : string.Join(", ", lost.Select(axis => FormattableString.Invariant(
            $"{axis.Axis} off by {Counted.Of(axis.Steps, "step")} ({axis.Mm:0.###} mm{GiveOrTake(axis)})")));

    private static string GiveOrTake(LostSteps axis) => axis.UncertaintyMm is { } mm
        ? FormattableString.Invariant($", give or take {Measured.Coverage * mm:0.###} mm") : "";
}
