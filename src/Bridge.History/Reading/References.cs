using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>What a machine told each time it referenced again, at changes of layer and after the run.</summary>
internal static class References
{
    /// <summary>The entries that tell it, in order.</summary>
    public static IReadOnlyList<JournalEntry> Of(PastRun run) =>
        [.. run.Journal.Entries.Where(entry => entry is { Kind: JournalKind.Referenced, Lost: not null })];

    /// <summary>The steps of the whole run, axis by axis: each reference begins the count anew, so what the next one finds was lost since.</summary>
    public static IReadOnlyList<LostSteps> Sum(IEnumerable<JournalEntry> references) => [.. references
        .SelectMany(referenced => referenced.Lost!)
        .GroupBy(lost => lost.Axis)
        .Select(axis => new LostSteps(axis.Key, axis.Sum(lost => lost.Steps), axis.Sum(lost => lost.Mm))
        {
            UncertaintyMm = axis.All(lost => lost.UncertaintyMm is not null)
                ? Measured.Combined([.. axis.Select(lost => lost.UncertaintyMm!.Value)]) : null,
        })];
}
