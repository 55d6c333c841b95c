using System.Globalization;

namespace Bridge.Planning;

/// <summary>A length along an axis, in cells or in mm.</summary>
/// <param name="Value">How long.</param>
/// <param name="IsMm">Whether that is mm; else cells.</param>
public readonly record struct Length(double Value, bool IsMm)
{
    /// <summary>The largest value, of either unit: 1 000 000.</summary>
    public const double Largest = 1_000_000;

    private const string Mm = "mm";

    /// <summary>Reads `12` as cells and `12.5mm` as mm, from -1 000 000 to 1 000 000.</summary>
    public static bool TryParse(string text, out Length length)
    {
        var isMm = text.EndsWith(Mm, StringComparison.Ordinal);
        var number = isMm ? text[..^Mm.Length] : text;
        const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        var isNumber = double.TryParse(number, Plain, CultureInfo.InvariantCulture, out var value);
        length = new Length(value, isMm);
        return isNumber && Math.Abs(value) <= Largest;
    }

    /// <summary>The length in cells on an axis of some mm from cell to cell.</summary>
    public double ToCells(double pitchMm) => IsMm ? Value / pitchMm : Value;

    /// <summary>As people write it.</summary>
    public override string ToString() => Value.ToString(CultureInfo.InvariantCulture) + (IsMm ? Mm : "");
}
