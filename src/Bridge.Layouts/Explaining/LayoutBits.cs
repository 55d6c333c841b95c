using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>The bits of a layout's record under the names of its fields, in the order in which they stand in the bytes.</summary>
public static class LayoutBits
{
    /// <summary>
    /// All bits of a record: each group is a field, or the part of one that stands together, or bits of none. Where the verb does not use a field, and where
    /// bits are in none, they say "-".
    /// </summary>
    public static IReadOnlyList<RecordField> Of(Layout layout, ulong word)
    {
        var (boxes, verb, bits) = (SheetBoxes.Of(layout).All, layout.VerbOf(word), word.ToString("b", null).PadLeft(8 * layout.RecordBytes, '0'));
        var fields = new List<RecordField>();
        for (int first = 0, end; first < boxes.Count; first = end)
        {
            for (end = first + 1; end < boxes.Count && boxes[end].Field == boxes[first].Field; end++)
            {
            }
            var field = layout.Fields.FirstOrDefault(candidate => candidate.Name == boxes[first].Field);
            fields.Add(new RecordField(field?.Name ?? "-", bits[first..end], field is null ? "-" : Says(layout, verb, field, word)));
        }
        return fields;
    }

    private static string Says(Layout layout, LayoutVerb? verb, LayoutField field, ulong word)
    {
        if (verb is null || (verb.Named & field.Mask) != 0)
            return $"{field.Read(word)}";
        foreach (var (role, source) in verb.Sources)
            if (source.Fields.Contains(field))
                return role switch
                {
                    LayoutRole.Head => $"{LayoutWords.HeadOf(verb, word)}",
                    LayoutRole.Rise => field.Read(word) == 1 ? "up" : "-",
                    LayoutRole.Heading when layout.HeadingOf(verb, word) is { } heading => LayoutWords.Direction(heading),
                    _ => $"{field.Read(word)}",
                };
        return "-";
    }
}
