namespace Bridge.Jobs;

/// <summary>What is wrong with a job.</summary>
/// <param name="Rule">The rule that it breaks.</param>
/// <param name="Index">The record, from 0; -1 where it is the job as a whole.</param>
/// <param name="Refusal">The place, what was found, what is allowed and what to do.</param>
public sealed record JobFault(JobRule Rule, int Index, Refusal Refusal)
{
    /// <summary>A fault of one record of an image.</summary>
    public static JobFault Of(JobRule rule, int index, RecordWidth width, string found, string allowed, string action) =>
        new(rule, index, new Refusal($"record {index} (byte {index * width.Bytes})", found, allowed, action));

    /// <summary>The whole in one line.</summary>
    public override string ToString() => Refusal.ToString();
}
