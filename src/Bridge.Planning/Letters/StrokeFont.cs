using System.Text;

namespace Bridge.Planning;

/// <summary>Letters of single strokes: each is a few polylines.</summary>
public sealed class StrokeFont
{
    private readonly Dictionary<Rune, Letter> _letters;

    internal StrokeFont(string name, double capital, double line, Dictionary<Rune, Letter> letters)
    {
        Name = name;
        Capital = capital;
        Line = line;
        _letters = letters;
    }

    /// <summary>What refusals call it.</summary>
    public string Name { get; }

    /// <summary>The plain alphabet: printable ASCII, drawn for cells; a capital is 7 cells high where a unit is a cell.</summary>
    public static StrokeFont Plain { get; } = PlainAlphabet.Make();

    /// <summary>The height of a capital in units, above 0.</summary>
    internal double Capital { get; }

    /// <summary>Units from one line of text to the next.</summary>
    internal double Line { get; }

    /// <summary>The letter of a character; null where the font has none.</summary>
    internal Letter? this[Rune character] => _letters.GetValueOrDefault(character);
}

/// <summary>One letter in units of its font, y going up from the line that it stands on.</summary>
/// <param name="Advance">From its start to that of the next one.</param>
/// <param name="Strokes">Its polylines; one point alone is a dot.</param>
internal sealed record Letter(double Advance, IReadOnlyList<IReadOnlyList<Dot>> Strokes);
