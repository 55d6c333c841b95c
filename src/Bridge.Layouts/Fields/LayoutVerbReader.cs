using Bridge.Jobs;
using Tomlyn.Syntax;

namespace Bridge.Layouts;

/// <summary>Reads the verbs of a layout: what each does, which bits name it, and where it finds its numbers.</summary>
internal sealed class LayoutVerbReader(LayoutSettings file, Layout layout)
{
    public static readonly string[] Keys = ["does", "when", .. Enum.GetValues<LayoutRole>().Select(LayoutActs.NameOf)];

    private const int MostVerbs = 64;

    private readonly Dictionary<string, LayoutField> _fields = layout.Fields.ToDictionary(field => field.Name);

    public List<LayoutVerb> Read()
    {
        var names = file.Names("verbs");
        if (names.Count is 0 or > MostVerbs)
            file.Refuse(file.At("verbs"), "verbs", names.Count == 0 ? "no verbs" : $"{names.Count} verbs", $"1 to {MostVerbs}", "Say what the records do.");
        return [.. names.Take(MostVerbs).Select(Verb).OfType<LayoutVerb>()];
    }

    private LayoutVerb? Verb(string name)
    {
        var table = $"verbs.{name}";
        var acts = new MachineFileChoice<LayoutAct?>([.. LayoutActs.ByName.Select(pair => ($"\"{pair.Key}\"", (LayoutAct?)pair.Value))]);
        var act = file.Get(table, "does", acts, LayoutActs.ByName.TryGetValue(name, out var own) ? own : null,
            required: !LayoutActs.ByName.ContainsKey(name));
        if (act is null)
            return null;
        var bits = When(table, out var named);
        var sources = new Dictionary<LayoutRole, LayoutSource>();
        foreach (var role in Enum.GetValues<LayoutRole>())
            if (Source(table, act.Value, role) is { } source)
                sources.Add(role, source);
        NoteUsedTwice(table, named, sources);
        var free = sources.Values.Aggregate(0UL, (mask, source) => mask | source.Mask);
        var all = layout.RecordBytes == 8 ? ulong.MaxValue : (1UL << 8 * layout.RecordBytes) - 1;
        return new LayoutVerb(name, act.Value, all & ~free, bits & ~free, named.Aggregate(0UL, (mask, part) => mask | part.Mask) & ~free, sources);
    }

    private ulong When(string table, out List<LayoutField> named)
    {
        named = [];
        var bits = 0UL;
        foreach (var entry in file.Entries($"{table}.when"))
            if (Field(entry.At, $"{table}.when", entry.Name) is { } field)
            {
                bits |= field.Write(file.Get($"{table}.when", entry.Name, new MachineFileInteger(0, field.Largest, "in that field")));
                named.Add(field);
            }
        return bits;
    }

    private LayoutSource? Source(string table, LayoutAct act, LayoutRole role)
    {
        var key = LayoutActs.NameOf(role);
        if (file.Entries(table).FirstOrDefault(entry => entry.Name == key) is not { } entry)
        {
            if (LayoutActs.Must(act).Contains(role))
                file.Refuse(file.At(table), $"{table}.{key}", "no such key", "the name of a field, a list of names, or a number",
                    $"A {LayoutActs.NameOf(act)} needs it: add a line that begins with {key} =.");
            return null;
        }
        if (!LayoutActs.May(act).Contains(role))
        {
            var may = LayoutActs.May(act).Select(LayoutActs.NameOf).ToList();
            file.Refuse(entry.At, $"{table}.{key}", $"what a {LayoutActs.NameOf(act)} does not say",
                may.Count == 0 ? "nothing more" : string.Join(", ", may), "Take the line out, or change what the verb does.");
            return null;
        }
        var source = Source(entry, $"{table}.{key}");
        if (source is { Always: { } always } && always >> LayoutActs.MostBits(role) != 0)
            file.Refuse(entry.At, $"{table}.{key}", $"{always}", $"0 to {(1 << LayoutActs.MostBits(role)) - 1}",
                "Write a number in the range, or the name of a field.");
        if (source is { Always: null } && source.Width > LayoutActs.MostBits(role))
            file.Refuse(entry.At, $"{table}.{key}", $"{source.Width} bits", $"up to {LayoutActs.MostBits(role)}", "Name a narrower field.");
        return source;
    }

    private LayoutSource? Source(MachineFileEntry entry, string key)
    {
        switch (entry.Value)
        {
            case IntegerValueSyntax { Value: >= 0 and <= 4096 } number:
                return new LayoutSource((int)number.Value, []);
            case StringValueSyntax name:
                return Field(entry.At, key, name.Value ?? "") is { } field ? new LayoutSource(null, [field]) : null;
            case ArraySyntax { Items.ChildrenCount: > 0 and <= 8 } list when list.Items.All(item => item.Value is StringValueSyntax):
                var fields = list.Items.Select(item => Field(entry.At, key, ((StringValueSyntax)item.Value!).Value ?? "")).ToList();
                return fields.Contains(null) ? null : new LayoutSource(null, fields!);
            default:
                file.Refuse(entry.At, key, MachineFileFound.Describe(entry.Value), "the name of a field, a list of up to 8 names, or a number, 0 to 4096",
                    "Write the field in quotes, such as \"x\", or [\"p\", \"q\"] where one follows the other.");
                return null;
        }
    }

    private LayoutField? Field(TextPosition at, string key, string name)
    {
        if (_fields.TryGetValue(name, out var field))
            return field;
        var near = MachineFileSpelling.Nearest(name, _fields.Keys);
        file.Refuse(at, key, $"the field {MachineFileText.Quote(name)}, which is not there", string.Join(", ", _fields.Keys),
            near is null ? "Add it below [fields]." : $"Did you mean {near}?");
        return null;
    }

    private void NoteUsedTwice(string table, List<LayoutField> named, Dictionary<LayoutRole, LayoutSource> sources)
    {
        var twice = named.Concat(sources.Values.SelectMany(source => source.Fields)).GroupBy(field => field.Name).FirstOrDefault(group => group.Count() > 1);
        if (twice is not null)
            file.Refuse(file.At(table), table, $"the field {twice.Key} twice", "each field for one thing in a verb", "Take one of the two out.");
    }
}
