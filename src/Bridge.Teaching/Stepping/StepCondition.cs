using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>What a person waits for, as they write it: "head b works", "x = 7", "layer >= 2 and left = 0".</summary>
public static class StepCondition
{
    private const int MostTerms = 16;

    private static readonly Dictionary<string, Func<Stopped, long>> Numbers = new()
    {
        ["x"] = stop => stop.Position.Cell.X,
        ["y"] = stop => stop.Position.Cell.Y,
        ["layer"] = stop => stop.Position.Layer,
        ["record"] = stop => stop.Index,
        ["left"] = stop => stop.CellsLeft,
        ["cells"] = stop => stop.Cells,
    };

    private static readonly Dictionary<string, Func<long, long, bool>> Comparisons = new()
    {
        ["="] = (one, other) => one == other,
        ["!="] = (one, other) => one != other,
        ["<"] = (one, other) => one < other,
        ["<="] = (one, other) => one <= other,
        [">"] = (one, other) => one > other,
        [">="] = (one, other) => one >= other,
    };

    /// <summary>What may be written.</summary>
    public const string Forms = "head a or b, with works behind it or not; x, y, layer, record, left or cells with = != < <= > >= and a number; "
        + "several with and between them";

    /// <summary>Reads a condition.</summary>
    /// <exception cref="RefusedException">It is not written so.</exception>
    public static Func<Stopped, bool> Parse(string text)
    {
        var terms = text.Split(" and ");
        if (terms.Length > MostTerms)
            throw new RefusedException("the condition", $"{terms.Length} parts", $"up to {MostTerms}", "Say it in fewer.");
        var all = terms.Select(term => ParseTerm(term, text)).ToList();
        return stop => all.TrueForAll(term => term(stop));
    }

    private static Func<Stopped, bool> ParseTerm(string term, string whole) => Words(term) switch
    {
        ["head", ("a" or "b") and var head] => stop => RecordWords.Name(stop.Position.Head) == head[0],
        ["head", ("a" or "b") and var head, "works"] => stop => stop.HasWorked && RecordWords.Name(stop.Position.Head) == head[0],
        [var name, var comparison, var number] when Numbers.TryGetValue(name, out var value) && Comparisons.TryGetValue(comparison, out var compare)
            && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var bound) => stop => compare(value(stop), bound),
        _ => throw new RefusedException("the condition", whole.Trim() is { Length: > 0 } found ? found : "nothing", Forms, "Write it so, as in: head b works."),
    };

    // Signs need no spaces around them.
    private static string[] Words(string term)
    {
        var at = term.IndexOfAny(['=', '!', '<', '>']);
        if (at < 0)
            return term.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var length = at + 1 < term.Length && term[at + 1] == '=' ? 2 : 1;
        return [term[..at].Trim(), term.Substring(at, length), term[(at + length)..].Trim()];
    }
}
