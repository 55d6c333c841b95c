using System.Globalization;
using System.Text;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>Puts new numbers into the text of a machine file; comments, order, line ends and all else stay as they are.</summary>
public static class MachineFileEdit
{
    /// <summary>The file with a key's value changed, or added in its table where the key is missing.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="name">What refusals call it.</param>
    /// <param name="key">The key with its tables, such as axes.x.backlash_mm; [0] or [1] behind it is a place in its list.</param>
    /// <param name="value">The new number, rounded to six significant digits; a whole one where the key wants an integer.</param>
    /// <exception cref="RefusedException">The file has mistakes, before or after, or no such table.</exception>
    public static byte[] With(ReadOnlySpan<byte> bytes, string name, string key, double value)
    {
        MachineFile.Parse(bytes, name);
        var mistakes = new MachineFileMistakes(name);
        var hasMark = bytes.StartsWith(Encoding.UTF8.Preamble);
        var text = MachineFileText.Decode(bytes, mistakes);
        var document = MachineFileDocument.Parse(text, mistakes);
        var place = key.EndsWith(']') ? key[^2] - '0' : (int?)null;
        var path = place is null ? key : key[..^3];
        var dot = path.LastIndexOf('.');
        var (table, own) = dot < 0 ? ("", path) : (path[..dot], path[(dot + 1)..]);
        var number = MachineFile.Tables.SelectMany(known => known.Keys).Any(known => known.Name == own && known is MachineFileKey<int>)
            ? value.ToString("0", CultureInfo.InvariantCulture) : Number(value);
        var edited = document.Find(table, own) is { } entry ? Replace(text, entry.Value, place, number)
            : Insert(text, document, table, $"{own} = {place switch { null => number, 0 => $"[{number}, 0.0]", _ => $"[0.0, {number}]" }}", name);
        byte[] result = [.. hasMark ? Encoding.UTF8.Preamble : [], .. Encoding.UTF8.GetBytes(edited)];
        MachineFile.Parse(result, name);
        return result;
    }

    // TOML wants digits on both sides of the point, and no exponent is easier to read.
    private static string Number(double value)
    {
        var rounded = double.Parse(value.ToString("G6", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return rounded.ToString("0.0########", CultureInfo.InvariantCulture);
    }

    private static string Replace(string text, ValueSyntax value, int? place, string number)
    {
        var node = place is { } index && value is ArraySyntax list ? list.Items.ElementAt(index).Value! : value;
        var (from, to) = (node.Span.Start.Offset, node.Span.End.Offset + 1);
        return string.Concat(text.AsSpan(0, from), number, text.AsSpan(to));
    }

    private static string Insert(string text, MachineFileDocument document, string table, string line, string name)
    {
        if (!document.Tables.TryGetValue(table, out var at))
            throw new RefusedException(name, $"no [{table}]", $"the table [{table}]", "Add it by hand.");
        var end = text.IndexOf('\n', at.Offset);
        if (end < 0)
            return $"{text}\n{line}\n";
        var lineEnd = end > 0 && text[end - 1] == '\r' ? "\r\n" : "\n";
        return $"{text[..(end + 1)]}{line}{lineEnd}{text[(end + 1)..]}";
    }
}
