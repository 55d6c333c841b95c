using Bridge.Planning;

namespace Bridge.Bench;

/// <summary>From a picture of 256 x 256 pixels on the disk to its plan.</summary>
internal static class PlanPicture
{
    private const int Repetitions = 9;

    public static IEnumerable<Figure> Measure() =>
    [
        Figure.OfSeconds("plan-picture threshold", Goal.Below(1), Repetitions, () => Planner.Plan(Examples.Heron(dither: false), Examples.WidePlotter)),
        Figure.OfSeconds("plan-picture dithered", Goal.Below(1), Repetitions, () => Planner.Plan(Examples.Heron(dither: true), Examples.WidePlotter)),
    ];
}
