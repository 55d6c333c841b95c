using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>What would help a job that does not fit the store; each piece of advice was planned and counted.</summary>
public static class PlanAdvice
{
    private const double WorthTelling = 0.9; // a change that saves less than a tenth and does not make it fit is not worth a try

    /// <summary>Advice in plain sentences, the store it would need first; empty where the job fits.</summary>
    /// <param name="shape">The shape.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="effort">How hard to plan, as for <see cref="Planner.Plan"/>.</param>
    /// <exception cref="RefusedException">The machine cannot work the shape at all.</exception>
    public static IReadOnlyList<string> For(Shape shape, Machine machine, double effort = 1)
    {
        var plan = Planner.Plan(shape, machine, effort);
        if (plan.Fits)
            return [];
        var needed = plan.ImageBytes - plan.Width.Bytes; // a store that is then full needs no end
        List<string> advice = [$"A store of at least {needed} bytes would hold it; this one holds {plan.StoreBytes}."];
        if (LowestThatFit(plan) is > 0 and var layers && shape.Lowest(layers) is { IsEmptyEverywhere: false } lowest)
            advice.Add($"The lowest {(layers == 1 ? "layer" : $"{layers} layers")} alone: "
                + $"{Planner.Plan(lowest, machine, effort).ImageBytes} bytes, which fits.");
        foreach (var (change, variant) in Variants(shape))
            if (MachineFit.Refusal(variant, machine) is null && Planner.Plan(variant, machine, effort) is var other)
            {
                if (other.Fits)
                    advice.Add($"{change}: {other.ImageBytes} bytes, which fits.");
                else if (other.ImageBytes <= plan.ImageBytes * WorthTelling)
                    advice.Add($"{change}: {other.ImageBytes} bytes, which is shorter but still too long.");
            }
        return advice;
    }

    private static IEnumerable<(string Change, Shape Variant)> Variants(Shape shape) =>
    [
        ("Turned by 90 degrees", shape.Turned()),
        ("Mirrored along X", shape.Mirrored()),
        ("Worked by head a alone", shape.WorkedBy(Head.A)),
        ("Without the cells that stand alone on their layer", shape.WithoutLoneCells()),
    ];

    private static int LowestThatFit(Plan plan)
    {
        long free = plan.StoreBytes;
        return plan.Layers.TakeWhile(layer => (free -= layer.Bytes) >= 0).Count();
    }
}
