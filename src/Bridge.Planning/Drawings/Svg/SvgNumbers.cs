using System.Globalization;

namespace Bridge.Planning;

/// <summary>Numbers and lengths as SVG writes them.</summary>
internal static class SvgNumbers
{
    /// <summary>Pixels of an inch, by the definition of CSS.</summary>
    public const double PixelsPerInch = 96;

    private const double MmPerInch = 25.4;
    private const double FontPixels = 16; // common practice, where nothing is said

    private static readonly (string Unit, double Pixels, bool IsPhysical)[] Units =
    [
        ("px", 1, false), ("mm", PixelsPerInch / MmPerInch, true), ("cm", 10 * PixelsPerInch / MmPerInch, true), ("in", PixelsPerInch, true),
        ("pt", PixelsPerInch / 72, true), ("pc", PixelsPerInch / 6, true), ("Q", PixelsPerInch / MmPerInch / 4, true),
        ("em", FontPixels, false), ("ex", FontPixels / 2, false), ("rem", FontPixels, false), ("", 1, false),
    ];

    /// <summary>The mm of a pixel.</summary>
    public static double PixelMm => MmPerInch / PixelsPerInch;

    /// <summary>A finite number that stands alone.</summary>
    public static bool TryNumber(ReadOnlySpan<char> text, out double number) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);

    /// <summary>A length in pixels; a percentage is one of the basis.</summary>
    public static bool TryLength(string text, double basis, out double pixels) => TryLength(text, basis, out pixels, out _);

    /// <summary>A length in pixels, and whether its unit is one that can be measured.</summary>
    public static bool TryLength(string text, double basis, out double pixels, out bool isPhysical)
    {
        (pixels, isPhysical) = (0, false);
        var trimmed = text.AsSpan().Trim();
        if (trimmed is [.. var share, '%'])
        {
            var isShare = TryNumber(share, out pixels);
            pixels *= basis / 100;
            return isShare;
        }
        foreach (var (unit, size, physical) in Units)
            if (trimmed.EndsWith(unit, StringComparison.OrdinalIgnoreCase) && TryNumber(trimmed[..^unit.Length], out pixels))
            {
                (pixels, isPhysical) = (pixels * size, physical);
                return true;
            }
        return false;
    }

    /// <summary>Numbers with spaces and commas between, or nothing where a sign begins the next; null where other things stand between.</summary>
    public static List<double>? List(string text)
    {
        List<double> numbers = [];
        for (var at = 0; ;)
        {
            while (at < text.Length && (char.IsWhiteSpace(text[at]) || text[at] == ','))
                at++;
            if (at == text.Length)
                return numbers;
            var end = End(text, at);
            if (end == at || !TryNumber(text.AsSpan(at, end - at), out var number))
                return null;
            numbers.Add(number);
            at = end;
        }
    }

    // Where a number ends: -1.5e-3, and then perhaps .5 or -2 right behind it.
    private static int End(string text, int at)
    {
        var (hasPoint, hasExponent, start) = (false, false, at);
        for (; at < text.Length; at++)
            switch (text[at])
            {
                case >= '0' and <= '9':
                    break;
                case '+' or '-' when at == start || text[at - 1] is 'e' or 'E':
                    break;
                case '.' when !hasPoint && !hasExponent:
                    hasPoint = true;
                    break;
                case 'e' or 'E' when !hasExponent && at > start:
                    hasExponent = true;
                    break;
                default:
                    return at;
            }
        return at;
    }
}
