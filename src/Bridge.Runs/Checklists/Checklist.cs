using System.Security.Cryptography;
using System.Text;
using Bridge.Jobs;
using Tomlyn;
using Tomlyn.Model;

namespace Bridge.Runs;

/// <summary>One question before anything moves.</summary>
/// <param name="Id">Its short name: letters, digits and hyphens.</param>
/// <param name="Ask">The question, which yes answers well; 1 to 200 characters.</param>
/// <param name="Why">What the question is for; 1 to 200 characters.</param>
/// <param name="EachTime">Asked each time; else once a day for the same machine.</param>
public sealed record ChecklistItem(string Id, string Ask, string Why, bool EachTime);

/// <summary>What is asked before anything moves on a real machine.</summary>
public sealed class Checklist
{
    private const string Remedy = "Mend it, or leave --checklist out to be asked the program's own.";

    /// <summary>The version of the file's format.</summary>
    public const int Format = 1;

    private const int MostBytes = 65_536;
    private const int MostItems = 50;
    private const int LongestText = 200;
    private const string OwnName = "checklist.toml";

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private Checklist(IReadOnlyList<ChecklistItem> items, string digest) => (Items, Digest) = (items, digest);

    /// <summary>The list that comes with the program; safety/checklist.toml has it.</summary>
    public static Checklist Own { get; } = ReadOwn();

    /// <summary>Its items in order, 1 to 50.</summary>
    public IReadOnlyList<ChecklistItem> Items { get; }

    /// <summary>SHA-256 of the list's text: what was answered of one list was not answered of another.</summary>
    public string Digest { get; }

    /// <summary>What is asked now: all of it, or only what is asked each time.</summary>
    public IEnumerable<ChecklistItem> Asked(bool isShort) => Items.Where(item => !isShort || item.EachTime);

    /// <summary>Reads a checklist file.</summary>
    /// <exception cref="RefusedException">It cannot be read, or is none.</exception>
    public static Checklist Read(string path)
    {
        var octets = InputFile.ReadAll(path, MostBytes);
        try
        {
            return Parse(Utf8.GetString(octets).TrimStart('\uFEFF'), path);
        }
        catch (DecoderFallbackException)
        {
            throw Refused(path, "octets that are no text", "UTF-8 text");
        }
    }

    /// <summary>Reads the text of a checklist.</summary>
    /// <exception cref="RefusedException">It is none.</exception>
    public static Checklist Parse(string text, string name)
    {
        var file = Table(text, name);
        RefuseOthers(file, name, "", "format", "item");
        if (!file.TryGetValue("format", out var format) || format is not long and not int || Convert.ToInt64(format) != Format)
            throw Refused(name, "no format, or another", $"format = {Format}");
        if (!file.TryGetValue("item", out var listed) || listed is not TomlTableArray { Count: >= 1 and <= MostItems } items)
            throw Refused(name, "no list of items, or too long a one", $"[[item]], 1 to {MostItems} times");
        var read = items.Select((item, index) => Item(item, name, $"item {index + 1}")).ToList();
        if (read.GroupBy(item => item.Id).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw Refused(name, $"id = \"{twice.Key}\" twice", "each id once");
        if (!read.Exists(item => item.EachTime))
            throw Refused(name, "no item with each_time = true", "at least one that is asked each time");
        return new Checklist(read, Convert.ToHexStringLower(SHA256.HashData(Utf8.GetBytes(text))));
    }

    private static TomlTable Table(string text, string name)
    {
        TomlFile.Parse(text, name, Remedy);
        return TomlSerializer.Deserialize<TomlTable>(text) ?? [];
    }

    private static ChecklistItem Item(TomlTable item, string name, string where)
    {
        RefuseOthers(item, name, $"{where}: ", "id", "ask", "why", "each_time");
        if (!item.TryGetValue("id", out var id) || id is not string { Length: >= 1 and <= 40 } word || !word.All(IsOfId))
            throw Refused(name, $"{where}: no good id", "id = \"letters-digits-and-hyphens\"");
        if (!item.TryGetValue("each_time", out var eachTime) || eachTime is not bool always)
            throw Refused(name, $"{where}: no each_time", "each_time = true or false");
        return new ChecklistItem(word, TextOf(item, "ask", name, where), TextOf(item, "why", name, where), always);
    }

    private static string TextOf(TomlTable item, string key, string name, string where) =>
        item.TryGetValue(key, out var value) && value is string { Length: >= 1 and <= LongestText } text && !text.Any(char.IsControl)
            ? text
            : throw Refused(name, $"{where}: no good {key}", $"{key} = \"1 to {LongestText} characters in a line\"");

    private static bool IsOfId(char letter) => char.IsAsciiLetterOrDigit(letter) || letter == '-';

    private static void RefuseOthers(TomlTable table, string name, string where, params string[] known)
    {
        if (table.Keys.Except(known).FirstOrDefault() is { } other)
            throw Refused(name, $"{where}{other}", string.Join(", ", known));
    }

    private static RefusedException Refused(string name, string found, string allowed) =>
        new(name, found, allowed, Remedy);

    private static Checklist ReadOwn()
    {
        using var reader = new StreamReader(typeof(Checklist).Assembly.GetManifestResourceStream(OwnName)!, Encoding.UTF8);
        return Parse(reader.ReadToEnd(), OwnName);
    }
}
