using Bridge.Motion;

namespace Bridge.Runs;

/// <summary>How far each axis was off, as people say it.</summary>
public static class LostStepsWords
{
    /// <summary>Each axis in steps and mm, give or take twice its standard uncertainty where that is known.</summary>
    public static string Of(IReadOnlyList<LostSteps> lost) => lost.Count == 0
        ? "where it stood before was not known"
        : string.Join(", ", lost.Select(axis => FormattableString.Invariant(
            $"{axis.Axis} off by {axis.Steps} {(axis.Steps == 1 ? "step" : "steps")} ({axis.Mm:0.###} mm{GiveOrTake(axis)})")));

    private static string GiveOrTake(LostSteps axis) => axis.UncertaintyMm is { } mm
        ? FormattableString.Invariant($", give or take {Measured.Coverage * mm:0.###} mm") : "";
}
