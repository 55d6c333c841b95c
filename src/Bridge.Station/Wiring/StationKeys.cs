using Bridge.Jobs;
using Tomlyn.Syntax;

namespace Bridge.Station;

/// <summary>The keys of a station file with their places, each asked for once; what is left over is a mistake.</summary>
internal sealed class StationKeys
{
    private const string Remedy = "Mend the station file; nothing was started.";

    private readonly string _name;
    private readonly HashSet<string> _tables = [];
    private readonly Dictionary<string, (ValueSyntax Value, int Line)> _keys = [];

    /// <summary>Reads a text as TOML.</summary>
    /// <exception cref="RefusedException">It is none, or names something twice.</exception>
    public StationKeys(string text, string name)
    {
        _name = name;
        var file = TomlFile.Parse(text, name, Remedy);
        foreach (var pair in file.KeyValues)
            Add("", pair);
        foreach (var table in file.Tables)
        {
            var title = table.Name!.ToString().Trim();
            if (table is TableArraySyntax)
                throw Refused(table.Span.Start.Line, title, "a list of tables", $"one table, [{title}]");
            if (!_tables.Add(title))
                throw Refused(table.Span.Start.Line, title, "the same table again", "each table once");
            foreach (var pair in table.Items)
                Add(title, pair);
        }
    }

    /// <summary>Whether a table is there.</summary>
    public bool Has(string table) => _tables.Contains(table);

    /// <summary>Whether a key is there.</summary>
    public bool Has(string table, string key) => _keys.ContainsKey(Join(table, key));

    /// <summary>A whole number of a range.</summary>
    /// <exception cref="RefusedException">It is missing, or none.</exception>
    public int Whole(string table, string key, int least, int most)
    {
        var allowed = $"a whole number, {least} to {most}";
        var (value, line) = Take(table, key, allowed);
        return NumberOf(value, least, most) ?? throw Refused(line, Join(table, key), Shown(value), allowed);
    }

    /// <summary>A list of just so many whole numbers of a range.</summary>
    /// <exception cref="RefusedException">It is missing, or none.</exception>
    public IReadOnlyList<int> Wholes(string table, string key, int count, int least, int most)
    {
        var allowed = $"a list of {count} whole numbers, {least} to {most}";
        var (value, line) = Take(table, key, allowed);
        var numbers = (value as ArraySyntax)?.Items.Select(item => NumberOf(item.Value, least, most)).ToList();
        if (numbers?.Count != count || numbers.Contains(null))
            throw Refused(line, Join(table, key), Shown(value), allowed);
        return [.. numbers.Select(number => number!.Value)];
    }

    /// <summary>The line of a key that was there, for a mistake that shows later.</summary>
    public RefusedException Refused(string table, string key, string found, string allowed) =>
        Refused(_keys[Join(table, key)].Line, Join(table, key), found, allowed);

    /// <summary>Refuses whatever is none of the keys that may be there.</summary>
    public void RefuseOthers(IReadOnlyCollection<string> tables, IReadOnlyCollection<string> keys)
    {
        if (_tables.Except(tables).FirstOrDefault() is { } table)
            throw new RefusedException($"{_name}, [{table}]", "a table of this name", string.Join(", ", tables), Remedy);
        if (_keys.Keys.Except(keys).FirstOrDefault() is { } other)
            throw Refused(_keys[other].Line, other, "a key of this name", string.Join(", ", keys));
    }

    private void Add(string table, KeyValueSyntax pair)
    {
        if (pair is { Key: { } key, Value: { } value })
            _keys[Join(table, key.ToString().Trim())] = (value, pair.Span.Start.Line);
    }

    private (ValueSyntax Value, int Line) Take(string table, string key, string allowed) => _keys.TryGetValue(Join(table, key), out var at)
        ? at
        : throw new RefusedException($"{_name}, {Join(table, key)}", "nothing", allowed, Remedy);

    private RefusedException Refused(int line, string key, string found, string allowed) =>
        new($"{_name}:{line + 1}{(key.Length > 0 ? $" {key}" : "")}", found, allowed, Remedy);

    private static int? NumberOf(ValueSyntax? value, int least, int most) =>
        value is IntegerValueSyntax number && number.Value >= least && number.Value <= most ? (int)number.Value : null;

    private static string Shown(ValueSyntax value)
    {
        const int Longest = 40;
        var text = new string([.. value.ToString().Trim().Where(letter => !char.IsControl(letter))]);
        return text.Length <= Longest ? text : $"{text[..Longest]}...";
    }

    private static string Join(string table, string key) => table.Length == 0 ? key : $"{table}.{key}";
}
