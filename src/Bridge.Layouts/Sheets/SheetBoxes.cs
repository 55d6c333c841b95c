using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One box of a row: a bit of a record.</summary>
/// <param name="Place">Its place, as the layout counts.</param>
/// <param name="Field">The field that it belongs to; null where it is in none.</param>
public readonly record struct SheetBox(int Place, string? Field);

/// <summary>The boxes of a record from the left, the highest bit of the first byte first: as its bytes are written.</summary>
/// <param name="All">The boxes, eight for each byte.</param>
/// <param name="HowCounted">How places are counted, in words.</param>
public sealed record SheetBoxes(IReadOnlyList<SheetBox> All, string HowCounted)
{
    /// <summary>Bytes of a record, 1 to 8.</summary>
    public int RecordBytes => All.Count / 8;

    /// <summary>Neighbouring boxes of one field: the first of them, and the field.</summary>
    internal IEnumerable<(int First, string Field)> Runs => All.Select((box, index) => (First: index, box.Field))
        .Where(run => run.Field is not null && (run.First == 0 || All[run.First - 1].Field != run.Field)).Select(run => (run.First, run.Field!));

    /// <summary>The boxes of a layout's records.</summary>
    public static SheetBoxes Of(Layout layout) => new(
        [.. Enumerable.Range(0, 8 * layout.RecordBytes).Reverse().Select(bit =>
            new SheetBox(layout.PlaceOf(bit), layout.Fields.FirstOrDefault(field => field.Bits.Contains(bit))?.Name))],
        layout.IsLowFirst ? "place 0 is the lowest bit of the first byte (first_bit = \"low\")"
            : "place 0 is the highest bit of the first byte (first_bit = \"high\")");

    /// <summary>The boxes of Bridge's own records.</summary>
    public static SheetBoxes Of(RecordWidth width) => new(
        [.. RecordField.Of(width, Record.End).SelectMany(field => field.Bits.Select(_ => field.Name)).Select((field, index) => new SheetBox(index, field))],
        "place 0 is the highest bit of the first byte");
}
