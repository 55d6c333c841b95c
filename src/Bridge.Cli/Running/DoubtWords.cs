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
        return doubt.RecordsAfter switch
        {
            0 => $"{record}.",
            1 => $"{record}; the record after it had been sent too, and it is not known how far it was executed. "
                + "It is executed from its beginning in either case: its cells may be worked twice.",
            var after => $"{record}; {after} records after it had been sent too, and it is not known how far they were executed. "
                + "They are executed from the first on in either case: their cells may be worked twice.",
        };
    }
}
