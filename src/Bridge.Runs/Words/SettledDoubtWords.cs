namespace Bridge.Runs;

/// <summary>What was in doubt and was settled, as people say it.</summary>
public static class SettledDoubtWords
{
    /// <summary>Which cells may have been worked twice, or not at all, and that a person decided so.</summary>
    public static string Of(SettledDoubt doubt) => string.Join(' ', new[] { OfCells(doubt), OfRecordsAfter(doubt) }.OfType<string>());

    private static string? OfCells(SettledDoubt doubt)
    {
        if (doubt.Cells == 0)
            return null;
        var cells = doubt.Cells == 1 ? $"cell {doubt.First} on layer {doubt.Layer}"
            : $"{doubt.Cells} cells on layer {doubt.Layer}, from {doubt.First} to {doubt.Last},";
        return $"In record {doubt.Record}, {cells} " + (doubt.Decision == InDoubt.Redo
            ? "may have been worked twice, by decision of the person who went on with the run."
            : $"may not have been worked: left as {(doubt.Cells == 1 ? "it is" : "they are")}, by decision of the person who went on with the run.");
    }

    private static string? OfRecordsAfter(SettledDoubt doubt) => doubt.RecordsAfter == 0
        ? null
        : $"Of the {(doubt.RecordsAfter == 1 ? "record" : $"{doubt.RecordsAfter} records")} after record {doubt.Record} too cells may have been worked twice: "
            + "sent before the run was cut off, and worked when it went on.";
}
