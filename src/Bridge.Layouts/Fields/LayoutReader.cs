using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Makes a layout from a document, noting each mistake. With mistakes noted, what it returns means nothing.</summary>
internal sealed class LayoutReader(LayoutSettings file)
{
    private static readonly string[] TopKeys =
        ["format", "name", "record_bytes", "positions_x", "positions_y", "moves", "first_bit", "counts_from", "headings"];

    private static readonly MachineFileInteger Positions = new(1, 4096, "places");

    public Layout Read()
    {
        file.Get("", "format", new MachineFileFormat(LayoutFile.Format));
        file.RefuseIfAny(); // the keys of another format may mean something else
        file.NoteStrangers(KeysOf);
        var bytes = file.Get("", "record_bytes", new MachineFileInteger(1, 8, "bytes"));
        var lowFirst = file.Maybe("", "first_bit", new MachineFileChoice<bool>(("\"high\"", false), ("\"low\"", true)), false);
        var layout = new Layout
        {
            Name = file.Get("", "name", new MachineFileName(64)) ?? "",
            RecordBytes = bytes,
            PositionsX = file.Get("", "positions_x", Positions),
            PositionsY = file.Get("", "positions_y", Positions),
            IsRelative = file.Get("", "moves", new MachineFileChoice<bool>(("\"absolute\"", false), ("\"relative\"", true))),
            IsLowFirst = lowFirst,
            CountsFrom = file.Maybe("", "counts_from", new MachineFileInteger(0, 1, ""), 1),
            Headings = file.Maybe("", "headings", new LayoutHeadings(), null),
            Fields = [],
            Verbs = [],
        };
        file.RefuseIfAny();
        layout = layout with { Fields = new LayoutFieldReader(file, bytes, lowFirst).Read() };
        file.RefuseIfAny();
        layout = layout with { Verbs = new LayoutVerbReader(file, layout).Read() };
        new LayoutChecks(file, layout).Check();
        return layout;
    }

    // Null for a table that no layout has; no keys at all where the keys are names.
    private static IReadOnlyCollection<string>? KeysOf(string table) => table.Split('.') switch
    {
        [""] => TopKeys,
        ["fields"] or ["verbs"] => [],
        ["fields", _] => LayoutFieldReader.Keys,
        ["verbs", _] => LayoutVerbReader.Keys,
        ["verbs", _, "when"] => [],
        _ => null,
    };
}
