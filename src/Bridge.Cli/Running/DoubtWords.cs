using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>What is in doubt, in words.</summary>
internal static class DoubtWords
{
    public static string Of(Doubt doubt, RecordWidth width)
    {
        var (first, last, count) = doubt.Cells;
        var cells = count switch
        {
            0 => "none of its cells",
            1 => $"cell {first}",
            _ => $"{count} cells, from {first} to {last},",
        };
        var record = $"In doubt: record {doubt.Pass.Index}, {RecordWords.Meaning(width, doubt.Pass.Record)}. "
            + $"Of it {cells} on layer {doubt.Pass.Entry.Layer} may or may not have been worked";
        return doubt.RecordsAfter == 0
            ? $"{record}."
            : $"{record}; {Counted.Of(doubt.RecordsAfter, "record")} after it had been sent, and it is not known how far they were executed.";
    }
}
