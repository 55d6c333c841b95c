using System.Globalization;

namespace Bridge.Planning;

/// <summary>A turn about an axis, counter-clockwise seen from the axis's positive end.</summary>
/// <param name="About">The axis.</param>
/// <param name="Degrees">How far, -360 to 360 degrees.</param>
public readonly record struct Turn(TurnAxis About, double Degrees)
{
    /// <summary>The most turns in a row: 9.</summary>
    public const int Most = 9;

    /// <summary>Reads turns with commas between: `90` about Z, `x90` about X; null where they are none.</summary>
    public static IReadOnlyList<Turn>? ParseAll(string text)
    {
        var words = text.Split(',');
        List<Turn> turns = [];
        foreach (var word in words)
            if (words.Length <= Most && Parse(word) is { } turn)
                turns.Add(turn);
            else
                return null;
        return turns;
    }

    /// <summary>Quarter turns counter-clockwise, 0 to 3; null where it is not whole quarters.</summary>
    internal int? Quarters => Degrees % 90 == 0 ? (int)(Degrees / 90 + 4) % 4 : null;

    /// <summary>Sine and cosine, exact for quarter turns.</summary>
    internal (double Sine, double Cosine) SineAndCosine => Quarters switch
    {
        0 => (0, 1),
        1 => (1, 0),
        2 => (0, -1),
        3 => (-1, 0),
        _ => Math.SinCos(Degrees * Math.PI / 180),
    };

    private static Turn? Parse(string word)
    {
        var about = word is ['x' or 'y' or 'z', ..] ? (TurnAxis)(word[0] - 'x') : TurnAxis.Z;
        var number = word is ['x' or 'y' or 'z', ..] ? word[1..] : word;
        const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        return double.TryParse(number, Plain, CultureInfo.InvariantCulture, out var degrees) && Math.Abs(degrees) <= 360
            ? new Turn(about, degrees)
            : null;
    }
}

/// <summary>An axis to turn about.</summary>
public enum TurnAxis : byte
{
    /// <summary>To the right.</summary>
    X = 0,

    /// <summary>Away from the person.</summary>
    Y = 1,

    /// <summary>Up.</summary>
    Z = 2,
}
