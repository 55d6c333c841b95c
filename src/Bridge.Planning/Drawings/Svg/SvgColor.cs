using System.Drawing;
using System.Globalization;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Paint: none, the present colour, or a colour.</summary>
/// <param name="Color">The colour; null for none and for the present colour.</param>
/// <param name="IsCurrent">Whether it is the present colour.</param>
internal readonly record struct SvgPaint(SKColor? Color, bool IsCurrent = false)
{
    /// <summary>Reads paint; null where it is none that is known. Of paint by reference only what stands in for it counts.</summary>
    public static SvgPaint? Parse(string text)
    {
        var word = text.Trim();
        if (word.StartsWith("url(", StringComparison.Ordinal))
            word = word.IndexOf(')', StringComparison.Ordinal) is > 0 and var end && end + 1 < word.Length ? word[(end + 1)..].Trim() : "";
        return word.ToUpperInvariant() switch
        {
            "NONE" or "TRANSPARENT" => new SvgPaint(null),
            "CURRENTCOLOR" => new SvgPaint(null, IsCurrent: true),
            _ => SvgColor.Parse(word) is { } color ? new SvgPaint(color) : null,
        };
    }
}

/// <summary>Colours as SVG and CSS write them.</summary>
internal static class SvgColor
{
    /// <summary>Reads #rgb, #rrggbb (with alpha too), rgb(), rgba(), hsl(), hsla() and names; null where it is none of these.</summary>
    public static SKColor? Parse(string word) => word switch
    {
        ['#', .. var digits] => Hex(digits),
        _ when word.IndexOf('(', StringComparison.Ordinal) is > 0 and var open && word[^1] == ')' =>
            Function(word[..open].ToUpperInvariant(), word[(open + 1)..^1].Split([' ', ',', '/'], StringSplitOptions.RemoveEmptyEntries)),
        _ => Named(word),
    };

    private static SKColor? Hex(string digits)
    {
        if (digits.Length is 3 or 4)
            digits = string.Concat(digits.Select(digit => $"{digit}{digit}"));
        if (digits.Length == 6)
            digits += "FF";
        return digits.Length == 8 && uint.TryParse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var rgba)
            ? new SKColor((rgba >> 8) | (rgba << 24))
            : null;
    }

    private static SKColor? Function(string name, string[] words)
    {
        if (words.Length is not (3 or 4))
            return null;
        var alpha = words.Length == 4 ? Level(words[3], 1, 255) : 255;
        if (name is "RGB" or "RGBA")
            return Level(words[0], 255, 255) is { } r && Level(words[1], 255, 255) is { } g && Level(words[2], 255, 255) is { } b && alpha is { } a
                ? new SKColor((byte)r, (byte)g, (byte)b, (byte)a)
                : null;
        var degrees = words[0].EndsWith("deg", StringComparison.Ordinal) ? words[0][..^3] : words[0];
        return name is "HSL" or "HSLA" && SvgNumbers.TryNumber(degrees, out var hue) && Level(words[1], 100, 100) is { } s
            && Level(words[2], 100, 100) is { } l && alpha is { } o
            ? SKColor.FromHsl((float)(hue % 360 + 360) % 360, (float)s, (float)l, (byte)o)
            : null;
    }

    // A number up to some whole, or per cent, as so much of another whole.
    private static double? Level(string word, double whole, double of)
    {
        var isShare = word[^1] == '%';
        return SvgNumbers.TryNumber(isShare ? word[..^1] : word, out var number)
            ? Math.Round(Math.Clamp(number / (isShare ? 100 : whole), 0, 1) * of)
            : null;
    }

    // The names of CSS are those of the framework, which has names of its own beside them.
    private static SKColor? Named(string word) =>
        Color.FromName(word.Replace("grey", "gray", StringComparison.OrdinalIgnoreCase)) is { IsKnownColor: true, IsSystemColor: false } color
            ? new SKColor((uint)color.ToArgb())
            : null;
}
