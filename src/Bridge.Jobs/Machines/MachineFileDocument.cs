using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>One key and its value as they stand in a file.</summary>
internal sealed record MachineFileEntry(string Table, string Name, TextPosition At, ValueSyntax Value);

/// <summary>A machine file as tables and keys with their places, before anything is known of what they mean.</summary>
internal sealed class MachineFileDocument
{
    // Far beyond any key that means something; keeps a hostile file from growing paths without end.
    private const int LongestPath = 256;
    private const int LongestMessage = 120;

    private readonly MachineFileMistakes _mistakes;
    private readonly Dictionary<(string Table, string Name), MachineFileEntry> _entries = [];
    private readonly Dictionary<string, TextPosition> _tables = new() { [""] = default };
    private readonly Dictionary<string, TextPosition> _headers = [];

    private MachineFileDocument(MachineFileMistakes mistakes) => _mistakes = mistakes;

    public IEnumerable<MachineFileEntry> Entries => _entries.Values;

    /// <summary>Where each table begins; the file itself is the table with the empty name.</summary>
    public IReadOnlyDictionary<string, TextPosition> Tables => _tables;

    public MachineFileEntry? Find(string table, string name) => _entries.GetValueOrDefault((table, name));

    public static string Join(string table, string name) => table.Length == 0 ? name : $"{table}.{name}";

    /// <summary>Reads text as TOML. Broken syntax is refused at once: nothing after it can be trusted.</summary>
    public static MachineFileDocument Parse(string text, MachineFileMistakes mistakes)
    {
        var syntax = ParseSyntax(text, validate: false, mistakes);
        mistakes.RefuseIfAny();

        var document = new MachineFileDocument(mistakes);
        foreach (var pair in syntax.KeyValues) document.AddPair("", pair);
        foreach (var table in syntax.Tables) document.AddTable(table);

        // What is given twice is named in our own words above; TOML's finer rules on it are left to the library.
        if (!mistakes.Any) ParseSyntax(text, validate: true, mistakes);
        return document;
    }

    private static DocumentSyntax ParseSyntax(string text, bool validate, MachineFileMistakes mistakes)
    {
        try
        {
            var syntax = SyntaxParser.Parse(text, validate: validate);
            var errors = syntax.Diagnostics.Where(d => d.Kind == DiagnosticMessageKind.Error);
            if (!validate)
                BrokenLines.Tell(text, errors.Select(error => error.Span.Start), mistakes);
            else
                foreach (var error in errors)
                    mistakes.Add(error.Span.Start, "", MachineFileText.Clean(error.Message.TrimEnd('.'), LongestMessage), "TOML 1.0", "Mend the line.");
            return syntax;
        }
        catch (TomlException trouble)
        {
            // Thrown for what is nested too deep; the rest of its message speaks to programmers.
            var found = MachineFileText.Clean(trouble.Message.Split('.')[0], LongestMessage);
            mistakes.Add(default, "", found, "lists and tables in lists and tables, at most 64 deep", "Take the nesting out.");
            return new DocumentSyntax();
        }
    }

    private void AddTable(TableSyntaxBase table)
    {
        if (table.Name is not { } key || !TryPath("", Parts(key), key, out var path)) return;

        if (table is TableArraySyntax)
            _mistakes.Add(Start(key), path, "a list of tables", $"one table, [{path}]", "Write it with single brackets, once.");

        AddHeader(path, Start(key));
        foreach (var pair in table.Items) AddPair(path, pair);
    }

    private void AddPair(string table, KeyValueSyntax pair)
    {
        if (pair is not { Key: { } key, Value: { } value }) return;

        var parts = Parts(key);
        if (!TryPath(table, parts, key, out var path) || !TryPath(table, parts[..^1], key, out var owner)) return;

        _tables.TryAdd(owner, Start(key));
        if (value is InlineTableSyntax inline)
        {
            AddHeader(path, Start(key));
            foreach (var item in inline.Items)
                if (item.KeyValue is { } inner) AddPair(path, inner);
        }
        else if (!_entries.TryAdd((owner, parts[^1]), new MachineFileEntry(owner, parts[^1], Start(key), value)))
        {
            AddTwice(path, Start(key), _entries[(owner, parts[^1])].At);
        }
    }

    private void AddHeader(string path, TextPosition at)
    {
        _tables.TryAdd(path, at);
        if (!_headers.TryAdd(path, at)) AddTwice(path, at, _headers[path]);
    }

    private void AddTwice(string path, TextPosition at, TextPosition first) =>
        _mistakes.Add(
            at, path, $"the same again (first on line {first.Line + 1})", "each table and key once", "Keep one of the two.");

    private bool TryPath(string table, string[] parts, SyntaxNode key, out string path)
    {
        path = parts.Length == 0 ? table : Join(table, string.Join('.', parts));
        if (path.Length <= LongestPath) return true;

        _mistakes.Add(Start(key), "", $"a key of {path.Length} characters", $"at most {LongestPath} characters", "Take it out.");
        return false;
    }

    private static string[] Parts(KeySyntax key) => [Part(key.Key), .. key.DotKeys.Select(dot => Part(dot.Key))];

    private static string Part(BareKeyOrStringValueSyntax? part) => part switch
    {
        BareKeySyntax bare => bare.Key?.Text ?? "",
        // A dot inside quotes is no step down: the quotes stay, so that the path is not mistaken for another.
        StringValueSyntax { Value: { } text } => BareKeySyntax.IsBareKey(text) ? text : MachineFileText.Quote(text),
        _ => "",
    };

    private static TextPosition Start(SyntaxNode node) => node.Span.Start;
}
