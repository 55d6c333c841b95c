using System.Globalization;
using System.Text;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Fonts in the format of A. V. Hershey's letters (.jhf): for each character from the space on, five characters of a number, three of the count of pairs,
/// then the pairs. A pair is two characters, each as far from R as the number that it means; the first pair is the left and right bound, " R" lifts
/// the pen, y goes down. Long characters go on in the next lines (from memory).
/// </summary>
public static class HersheyFile
{
    /// <summary>Most bytes of a file: 1 MiB.</summary>
    public const int MostBytes = 1 << 20;

    private const int HeadLength = 8;
    private const int MostLetters = 224; // from the space to the end of Latin-1
    private const double LineOfCapital = 1.7; // from line to line, in heights of a capital

    /// <summary>Reads the font at a path.</summary>
    /// <exception cref="RefusedException">The file cannot be read or is no such font.</exception>
    public static StrokeFont Read(string path) => Parse(InputFile.ReadAll(path, MostBytes), path);

    /// <summary>Reads a font's bytes.</summary>
    /// <exception cref="RefusedException">They are no such font; the refusal names the line.</exception>
    public static StrokeFont Parse(ReadOnlySpan<byte> content, string name)
    {
        Dictionary<Rune, Raw> raws = [];
        var lines = new Lines(content);
        while (lines.Next())
        {
            if (lines.Text.Trim((byte)' ').IsEmpty)
                continue;
            if (raws.Count == MostLetters)
                throw Refused(name, lines.Number, "one more character", $"up to {MostLetters}");
            raws.Add(new Rune(' ' + raws.Count), ReadRaw(ref lines, name));
        }
        var capital = raws.GetValueOrDefault(new Rune('H')) ?? raws.Values.FirstOrDefault(raw => raw.Strokes.Count > 0)
            ?? throw new RefusedException(name, "a font without letters", "a font with strokes in it", "Is this the right file?");
        var points = capital.Strokes.SelectMany(stroke => stroke).ToList();
        var (top, bottom) = (points.Min(at => at.Y), points.Max(at => at.Y));
        if (bottom - top < 1)
            throw new RefusedException(name, "a capital H without height", "letters with strokes in them", "Is this the right file?");
        return new StrokeFont(name, bottom - top, LineOfCapital * (bottom - top), raws.ToDictionary(raw => raw.Key, raw => Upright(raw.Value, bottom)));
    }

    private static Raw ReadRaw(ref Lines lines, string name)
    {
        var head = lines.Text.Length >= HeadLength ? Encoding.Latin1.GetString(lines.Text[5..HeadLength]) : "";
        if (!int.TryParse(head, NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture, out var count) || count < 1)
            throw Refused(name, lines.Number, "a line that does not begin so", "five characters of a number and three of a count from 1 to 999");
        var pairs = new StringBuilder(Encoding.Latin1.GetString(lines.Text[HeadLength..]));
        var first = lines.Number;
        while (pairs.Length < 2 * count && lines.Next())
            pairs.Append(Encoding.Latin1.GetString(lines.Text));
        if (pairs.Length != 2 * count && pairs.ToString().TrimEnd(' ').Length > 2 * count || pairs.Length < 2 * count)
            throw Refused(name, first, $"{pairs.Length} characters of pairs", $"{2 * count}, as the count of {count} says");
        var text = pairs.ToString(0, 2 * count);
        if (text.AsSpan().ContainsAnyExceptInRange(' ', '~'))
            throw Refused(name, first, "a character that is no number", "characters from the space to ~");
        return Strokes(text);
    }

    private static Raw Strokes(string pairs)
    {
        List<List<Dot>> strokes = [];
        List<Dot> stroke = [];
        for (var i = 2; i < pairs.Length; i += 2)
        {
            if (pairs[i] == ' ' && pairs[i + 1] == 'R')
            {
                stroke = [];
                continue;
            }
            if (stroke.Count == 0)
                strokes.Add(stroke);
            stroke.Add(new Dot(pairs[i] - 'R', pairs[i + 1] - 'R'));
        }
        return new Raw(pairs[0] - 'R', pairs[1] - 'R', strokes);
    }

    private static Letter Upright(Raw raw, double bottom) => new(Math.Max(0, raw.Right - raw.Left),
        [.. raw.Strokes.Select(stroke => (IReadOnlyList<Dot>)[.. stroke.Select(at => new Dot(at.X - raw.Left, bottom - at.Y))])]);

    private static RefusedException Refused(string name, int line, string found, string allowed) =>
        new($"{name}, line {line}", found, allowed, "Is this a font in Hershey's format (.jhf)?");

    private sealed record Raw(double Left, double Right, IReadOnlyList<IReadOnlyList<Dot>> Strokes);
}
