using System.Globalization;

namespace Bridge.Teaching.Tests;

/// <summary>A value change dump read back: for each line by its name, its values and since when each holds.</summary>
internal sealed class Dump
{
    private readonly Dictionary<string, List<(long Ticks, long Value)>> _lines = [];
    private readonly Dictionary<string, string> _names = [];

    /// <summary>The last time in it.</summary>
    public long Ends { get; private set; }

    public string Timescale { get; private set; } = "";

    public IEnumerable<string> Names => _lines.Keys.Order(StringComparer.Ordinal);

    /// <summary>The values of a line, each once, with the time since which it holds.</summary>
    public IReadOnlyList<(long Ticks, long Value)> this[string name] => _lines[name];

    public static Dump Read(string text)
    {
        var dump = new Dump();
        using var words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).AsEnumerable().GetEnumerator();
        while (words.MoveNext())
            dump.Take(words.Current, words);
        return dump;
    }

    /// <summary>When a line came to a value.</summary>
    public IEnumerable<long> When(string name, long value) => this[name].Where(change => change.Value == value).Select(change => change.Ticks);

    /// <summary>The value of a line at a time.</summary>
    public long At(string name, long ticks) => this[name].Last(change => change.Ticks <= ticks).Value;

    /// <summary>All that it says, as text that is the same where it says the same.</summary>
    public string Content() => string.Join('\n', Names.Select(name => $"{name}: {string.Join(' ', this[name])}").Prepend(Timescale));

    private void Take(string word, IEnumerator<string> words)
    {
        switch (word[0])
        {
            case '$' when word == "$var":
                var declared = UpToEnd(words);
                (_names[declared[2]], _lines[declared[3]]) = (declared[3], []);
                break;
            case '$' when word == "$timescale":
                Timescale = string.Concat(UpToEnd(words));
                break;
            case '$' when word is "$comment" or "$date" or "$version" or "$scope" or "$upscope" or "$enddefinitions":
                UpToEnd(words);
                break;
            case '#':
                var ticks = long.Parse(word[1..], CultureInfo.InvariantCulture);
                Assert.True(ticks >= Ends, $"{word} after #{Ends}");
                Ends = ticks;
                break;
            case 'b':
                Assert.True(words.MoveNext());
                Change(words.Current, Convert.ToInt64(word[1..], 2));
                break;
            case '0' or '1':
                Change(word[1..], word[0] - '0');
                break;
            default:
                Assert.True(word is "$dumpvars" or "$end", word);
                break;
        }
    }

    private void Change(string code, long value)
    {
        var line = _lines[_names[code]];
        if (line.Count > 0 && line[^1].Ticks == Ends)
            line.RemoveAt(line.Count - 1); // the last of one time is what holds
        if (line.Count == 0 || line[^1].Value != value)
            line.Add((Ends, value));
    }

    private static List<string> UpToEnd(IEnumerator<string> words)
    {
        var taken = new List<string>();
        while (words.MoveNext() && words.Current != "$end")
            taken.Add(words.Current);
        return taken;
    }
}
