using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Reads the fields of a layout: each within the record, and no bit in two of them.</summary>
internal sealed class LayoutFieldReader(LayoutSettings file, int recordBytes, bool lowFirst)
{
    public static readonly string[] Keys = ["place", "width", "order", "inverted"];

    private const int MostFields = 64;
    private const int WidestField = 24;

    private static readonly MachineFileChoice<bool> Order = new(("\"high_first\"", false), ("\"low_first\"", true));
    private static readonly MachineFileChoice<bool> Truth = new(("false", false), ("true", true));

    public List<LayoutField> Read()
    {
        var names = file.Names("fields");
        if (names.Count is 0 or > MostFields)
            file.Refuse(file.At("fields"), "fields", names.Count == 0 ? "no fields" : $"{names.Count} fields", $"1 to {MostFields}",
                "Name the fields of a record.");
        var fields = new List<LayoutField>();
        var owners = new Dictionary<int, string>();
        foreach (var name in names.Take(MostFields))
            if (Field(name) is { } field)
            {
                fields.Add(field);
                NoteOverlap(field, owners);
            }
        return fields;
    }

    private LayoutField? Field(string name)
    {
        var (table, bits) = ($"fields.{name}", 8 * recordBytes);
        var place = file.Get(table, "place", new MachineFileInteger(0, bits - 1, "from the record's first bit"), -1);
        var width = file.Get(table, "width", new MachineFileInteger(1, WidestField, "bits"), 0);
        var turned = file.Maybe(table, "order", Order, false);
        var inverted = file.Maybe(table, "inverted", Truth, false);
        if (place < 0 || width < 1)
            return null;
        if (place + width > bits)
        {
            file.Refuse(file.At(table, "width"), LayoutSettings.Path(table, "width"), $"{width} bits from place {place}",
                $"up to {bits - place}: a record has {bits}",
                "Make the field narrower, or the record longer (record_bytes).");
            return null;
        }
        var places = Enumerable.Range(place, width).Select(BitAt);
        return new LayoutField(name, [.. turned ? places.Reverse() : places], inverted);
    }

    // Place 0 is the highest bit of the first byte, or its lowest.
    private int BitAt(int place) => 8 * (recordBytes - 1 - place / 8) + (lowFirst ? place % 8 : 7 - place % 8);

    private void NoteOverlap(LayoutField field, Dictionary<int, string> owners)
    {
        var taken = field.Bits.Where(bit => !owners.TryAdd(bit, field.Name)).ToList();
        if (taken.Count == 0)
            return;
        var table = $"fields.{field.Name}";
        file.Refuse(file.At(table, "place"), table, $"{(taken.Count == 1 ? "a bit" : $"{taken.Count} bits")} of the field {owners[taken[0]]}",
            "bits that no other field has", "Move one of the two, or make it narrower.");
    }
}
