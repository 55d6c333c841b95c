using System.Text.RegularExpressions;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>Lines that are no TOML, told to who writes a machine file by hand: each line once, and of many the first alone.</summary>
internal static partial class BrokenLines
{
    private const int MostTold = 10;
    /// <summary>What a line may be.</summary>
    public const string Allowed = "TOML: key = value, [table], or # and a comment";

    /// <summary>Notes them.</summary>
    /// <param name="text">The file.</param>
    /// <param name="at">Where the library found something wrong.</param>
    /// <param name="mistakes">Where they are noted.</param>
    public static void Tell(string text, IEnumerable<TextPosition> at, MachineFileMistakes mistakes)
    {
        var lines = text.Split('\n');
        var broken = at.GroupBy(place => place.Line).Select(line => line.MinBy(place => place.Column)).ToList();
        foreach (var place in broken.Take(MostTold))
            Tell(lines[Math.Min(place.Line, lines.Length - 1)], place, mistakes);
        if (broken.Count > MostTold)
            mistakes.Add(broken[MostTold], "", $"{broken.Count - MostTold} more lines like that", Allowed, "Check that this is a machine file.");
    }

    /// <summary>A line as it is shown.</summary>
    public static string Found(string line) => line.Trim() is { Length: > 0 } found ? MachineFileText.Quote(found) : "nothing";

    private static void Tell(string line, TextPosition place, MachineFileMistakes mistakes)
    {
        if (DecimalComma().Match(line) is { Success: true, Groups: var number })
            mistakes.Add(place, "", $"{number[1].Value},{number[2].Value}, with a comma", $"{number[1].Value}.{number[2].Value}, with a point",
                "Write the number with a point.");
        else
            mistakes.Add(place, "", Found(line), Allowed, "Mend the line.");
    }

    [GeneratedRegex(@"=\s*(-?\d+),(\d+)\s*(?:#.*)?$")]
    private static partial Regex DecimalComma();
}
