using System.Text.RegularExpressions;
using Bridge.Jobs;
using Tomlyn.Syntax;

namespace Bridge.Layouts;

/// <summary>Looks the keys of a layout up and notes what is missing, wrong, or not known.</summary>
internal sealed partial class LayoutSettings(MachineFileDocument document, MachineFileMistakes mistakes)
{
    public void Refuse(TextPosition at, string key, string found, string allowed, string action) => mistakes.Add(at, key, found, allowed, action);

    /// <summary>With mistakes noted there is no use in going on.</summary>
    public void RefuseIfAny() => mistakes.RefuseIfAny();

    /// <summary>Where a table begins, or a key in it stands.</summary>
    public TextPosition At(string table, string key = "") => document.Find(table, key)?.At ?? document.Tables.GetValueOrDefault(table);

    public bool Has(string table) => document.Tables.ContainsKey(table);

    public IEnumerable<MachineFileEntry> Entries(string table) => document.Entries.Where(entry => entry.Table == table);

    /// <summary>What stands at a key; a default where it may be left out.</summary>
    public T Get<T>(string table, string key, MachineFileValue<T> value, T? standard = default, bool required = true)
    {
        if (document.Find(table, key) is not { } entry)
        {
            if (required)
                mistakes.Add(At(table), Path(table, key), "no such key", value.Allowed, $"Add a line that begins with {key} =.");
            return standard!;
        }
        if (value.TryRead(entry.Value, out var read))
            return read;
        mistakes.Add(entry.Value.Span.Start, Path(table, key), MachineFileFound.Describe(entry.Value), value.Allowed, value.Remedy(entry.Value));
        return standard!;
    }

    /// <summary>The same with a default.</summary>
    public T Maybe<T>(string table, string key, MachineFileValue<T> value, T standard) => Get(table, key, value, standard, required: false);

    /// <summary>The names of the tables right below one, in the order of the file; a name that will not do is noted.</summary>
    public List<string> Names(string group)
    {
        var start = $"{group}.";
        var names = document.Tables.Keys.Where(path => path.StartsWith(start, StringComparison.Ordinal) && path.LastIndexOf('.') < start.Length)
            .Select(path => path[start.Length..]).ToList();
        foreach (var entry in Entries(group))
            mistakes.Add(entry.At, Path(group, entry.Name), MachineFileFound.Describe(entry.Value), "a table",
                $"Write [{group}.{entry.Name}] and its keys below it, or {entry.Name} = {{ ... }}.");
        foreach (var name in names.Where(name => !Name().IsMatch(name)))
            mistakes.Add(At(start + name), start + name, $"the name {MachineFileText.Clean(name)}",
                "small letters, digits and _, a letter first, up to 24", "Choose another name.");
        return names;
    }

    /// <summary>Notes every table and key that no layout has.</summary>
    /// <param name="known">The keys of each kind of table; a * stands for any name.</param>
    public void NoteStrangers(Func<string, IReadOnlyCollection<string>?> known)
    {
        foreach (var (table, at) in document.Tables)
            if (known(table) is null)
                mistakes.Add(at, table, "a table that is not known", "[fields.NAME] and [verbs.NAME], with a verb's when", "Take it out.");
        foreach (var entry in document.Entries)
            if (known(entry.Table) is { Count: > 0 } keys && !keys.Contains(entry.Name))
                mistakes.Add(entry.At, Path(entry.Table, entry.Name), "a key that is not known", string.Join(", ", keys),
                    MachineFileSpelling.Nearest(entry.Name, keys) is { } near ? $"Did you mean {near}?" : "Take it out.");
    }

    public static string Path(string table, string key) => MachineFileDocument.Join(table, key);

    [GeneratedRegex("^[a-z][a-z0-9_]{0,23}$")]
    private static partial Regex Name();
}
