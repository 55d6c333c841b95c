using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>What the features of a plan cost: which kinds of records it is made of.</summary>
/// <param name="Feature">The kind, in plain words.</param>
/// <param name="Head">The head that works; null where none does.</param>
/// <param name="Records">How many of them there are, 1 and up.</param>
/// <param name="Bytes">Their bytes.</param>
public readonly record struct PlanCosts(string Feature, Head? Head, int Records, long Bytes)
{
    /// <summary>The costs of a plan, the dearest first; together they are all its records.</summary>
    public static IReadOnlyList<PlanCosts> Of(Plan plan) =>
    [
        .. plan.Records.GroupBy(record => FeatureOf(record))
            .Select(feature => new PlanCosts(feature.Key.Words, feature.Key.Head, feature.Count(), (long)feature.Count() * plan.Width.Bytes))
            .OrderByDescending(cost => cost.Records).ThenBy(cost => cost.Feature, StringComparer.Ordinal).ThenBy(cost => cost.Head),
    ];

    private static (string Words, Head? Head) FeatureOf(Record record) => record.Verb switch
    {
        Verb.Patch => ("patches", record.Head),
        Verb.Row when record.P == 0 && record.Q == 0 => ("single cells", record.Head),
        Verb.Row when record.Heading % 2 == 1 => ("diagonal rows", record.Head),
        Verb.Row => ("rows", record.Head),
        Verb.Again => ("repeats of records", null),
        Verb.Go => ("ways up with no work", null),
        Verb.End => ("the end", null),
        _ => ($"{record.Verb}", null),
    };
}
