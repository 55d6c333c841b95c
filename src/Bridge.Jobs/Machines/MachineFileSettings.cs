using Tomlyn.Syntax;
using Keys = Bridge.Jobs.MachineFileKeys;

namespace Bridge.Jobs;

/// <summary>Looks keys up in a document and notes what is missing, wrong, or not known.</summary>
internal sealed class MachineFileSettings(MachineFileDocument document, MachineFileMistakes mistakes)
{
    private static readonly Dictionary<string, MachineFileTable> Known =
        Keys.Tables.SelectMany(table => table.Names, KeyValuePair.Create).ToDictionary(pair => pair.Value, pair => pair.Key);

    private static readonly HashSet<string> Groups = [.. Known.Keys.Where(n => n.Contains('.')).Select(n => n[..n.IndexOf('.')])];

    public bool Has(string table) => document.Tables.ContainsKey(table);

    /// <summary>A file of another format is judged no further: its keys may mean something else.</summary>
    public void ReadFormat()
    {
        var other = document.Find("", Keys.Format.Name)?.Value is IntegerValueSyntax { Value: not MachineFile.Format };
        Get("", Keys.Format);
        if (other) mistakes.RefuseIfAny();
    }

    /// <summary>What stands at a key, or its default.</summary>
    public MachineFileSetting<T> Get<T>(string table, MachineFileKey<T> key) => Get(table, key, key.Standard!);

    /// <summary>What stands at a key, or a default that depends on another key.</summary>
    public MachineFileSetting<T> Get<T>(string table, MachineFileKey<T> key, T standard)
    {
        var tableAt = document.Tables.GetValueOrDefault(table);
        if (document.Find(table, key.Name) is not { } entry) return Absent(table, key, standard, tableAt);

        var at = entry.Value.Span.Start;
        if (key.Value.TryRead(entry.Value, out var value)) return new(true, value, at);

        mistakes.Add(at, Path(table, key), MachineFileFound.Describe(entry.Value), key.Allowed, key.Value.Remedy(entry.Value));
        return new(false, default!, at);
    }

    /// <summary>Refuses a key that makes no sense beside another one.</summary>
    public void Forbid(string table, MachineFileKey key, string why)
    {
        if (document.Find(table, key.Name) is not { } entry) return;

        const string found = "a key of the other kind of head";
        mistakes.Add(entry.At, Path(table, key), found, $"nothing here: {why}", "Take the line out, or change kind.");
    }

    /// <summary>Whether a table is there; notes it where it is not.</summary>
    public bool Require(string table)
    {
        if (Has(table)) return true;

        mistakes.Add(default, table, "no such table", $"[{table}]", "Add the table and its keys.");
        return false;
    }

    /// <summary>Notes every table and key that no machine file has.</summary>
    public void NoteStrangers()
    {
        foreach (var (table, at) in document.Tables)
            if (!Known.ContainsKey(table) && !Groups.Contains(table)) NoteTable(table, at);

        foreach (var entry in document.Entries)
            if (Known.TryGetValue(entry.Table, out var table)) NoteKey(entry, table);
            else if (Groups.Contains(entry.Table)) NoteKey(entry, null);
    }

    private MachineFileSetting<T> Absent<T>(string table, MachineFileKey<T> key, T standard, TextPosition at)
    {
        if (!key.Required) return new(true, standard, at);

        // A table in the key's place has been noted as a stranger.
        var path = Path(table, key);
        if (!Has(path)) mistakes.Add(at, path, "no such key", key.Allowed, $"Add a line that begins with {key.Name} =.");
        return new(false, default!, at);
    }

    private void NoteTable(string table, TextPosition at)
    {
        var near = MachineFileSpelling.Nearest(table, Known.Keys);
        var names = string.Join(", ", Known.Keys.Where(n => n.Length > 0).Select(n => $"[{n}]"));
        mistakes.Add(at, table, "a table that is not known", names, near is null ? "Take it out." : $"Did you mean [{near}]?");
    }

    private void NoteKey(MachineFileEntry entry, MachineFileTable? table)
    {
        if (table is not null && table.Keys.Any(k => k.Name == entry.Name)) return;

        var path = MachineFileDocument.Join(entry.Table, entry.Name);
        if (Known.ContainsKey(path) || Groups.Contains(path))
        {
            var found = MachineFileFound.Describe(entry.Value);
            mistakes.Add(entry.At, path, found, "a table", $"Write [{path}] and its keys below it.");
            return;
        }

        var names = table is null ? "only tables in here" : string.Join(", ", table.Keys.Select(k => k.Name));
        mistakes.Add(entry.At, path, "a key that is not known", names, Suggest(entry.Name, table));
    }

    private static string Suggest(string name, MachineFileTable? table)
    {
        string[] names = table is null ? [] : [.. table.Keys.Select(k => k.Name)];
        if (MachineFileSpelling.Nearest(name, names) is { } near) return $"Did you mean {near}?";

        var owners = Known.Where(pair => pair.Value.Keys.Any(k => k.Name == name)).Select(pair => Title(pair.Key)).ToList();
        return owners.Count == 0 ? "Take it out." : $"It belongs in {string.Join(" or ", owners)}.";
    }

    private static string Title(string table) => table.Length == 0 ? "the lines above the first table" : $"[{table}]";

    private static string Path(string table, MachineFileKey key) => MachineFileDocument.Join(table, key.Name);
}
