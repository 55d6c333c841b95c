using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>What would help a job that does not fit the store; each piece of advice was planned and counted.</summary>
public static class PlanAdvice
{
    /// <summary>Advice in plain sentences, the store it would need first; empty where the job fits.</summary>
    /// <exception cref="RefusedException">The machine cannot work the shape at all.</exception>
    public static IReadOnlyList<string> For(Shape shape, Machine machine)
    {
        var plan = Planner.Plan(shape, machine);
        if (plan.Fits)
            return [];
        var needed = plan.ImageBytes - plan.Width.Bytes; // a store that is then full needs no end
        List<string> advice = [$"A store of at least {needed} bytes would hold it; this one holds {plan.StoreBytes}."];
        if (LowestThatFit(plan) is > 0 and var layers)
            advice.Add($"The lowest {(layers == 1 ? "layer" : $"{layers} layers")} alone: {Bytes(shape.Lowest(layers), machine)} bytes, which fits.");
        foreach (var (change, variant) in Variants(shape))
            if (MachineFit.Refusal(variant, machine) is null && Bytes(variant, machine) is var bytes && bytes < plan.ImageBytes)
                advice.Add($"{change}: {bytes} bytes, which {(bytes <= plan.StoreBytes ? "fits" : "is shorter but still too long")}.");
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
        var free = plan.StoreBytes;
        return plan.Layers.TakeWhile(layer => (free -= (int)Math.Min(layer.Bytes, int.MaxValue)) >= 0).Count();
    }

    private static long Bytes(Shape shape, Machine machine) => Planner.Plan(shape, machine).ImageBytes;
}
