using System.Text;
using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Text in single strokes as a shape of one layer, worked by head a. A line break begins a new line; all lines begin at the left.</summary>
public static class TextShape
{
    /// <summary>Most characters: 1000.</summary>
    public const int MostCharacters = 1000;

    /// <summary>The least height of a capital: 3 cells.</summary>
    public const double LeastHeight = 3;

    private const string Name = "the text";

    /// <summary>Draws text, as high as the options say, or so that it fills the grid.</summary>
    /// <exception cref="RefusedException">The font lacks a character, nothing is to be drawn, or it does not lie on the grid.</exception>
    public static Shape Of(string text, StrokeFont font, ShapeOptions options)
    {
        Check(text, font, options);
        using var drawing = Drawn(text, font);
        var shape = DrawingCells.Of(drawing, Name, options);
        return options.Hollow is { } wall ? Hollow.Of(shape, wall, Name, options) : shape;
    }

    private static void Check(string text, StrokeFont font, ShapeOptions options)
    {
        if (text.Length > MostCharacters)
            throw new RefusedException(Name, $"{text.Length} characters", $"up to {MostCharacters}", "Cut it into parts.");
        var lacking = text.EnumerateRunes().Where(rune => rune.Value != '\n' && font[rune] is null).Distinct().Select(Named).ToList();
        if (lacking.Count > 0)
            throw new RefusedException(Name, string.Join(", ", lacking.Take(10)) + (lacking.Count > 10 ? $" and {lacking.Count - 10} more" : ""),
                $"characters that {font.Name} has", "Write it without them, or give a font that has them.");
        if (options.Threshold is not null || options.Dither || options.Wide)
            throw new RefusedException(Name, "a threshold, dithering or wide strokes asked for", "those for pictures and drawings", "Leave them out.");
        if (options.Height is not null && options.Size is not null)
            throw new RefusedException(Name, "a height and a size", "one of them", "Give the height of a capital or the length of the whole.");
        if (options.Height is { } height && height.ToCells(options.Pitch.Y) < LeastHeight)
            throw new RefusedException(Name, $"letters {height} high", $"{LeastHeight} cells and more", "Give a larger height.");
    }

    private static string Named(Rune rune) => Rune.IsControl(rune) || Rune.IsWhiteSpace(rune) ? $"character U+{rune.Value:X4}" : $"'{rune}'";

    private static Drawing Drawn(string text, StrokeFont font)
    {
        using var path = new SKPathBuilder();
        var (x, y) = (0.0, 0.0);
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value == '\n')
            {
                (x, y) = (0, y - font.Line);
                continue;
            }
            var letter = font[rune]!;
            foreach (var stroke in letter.Strokes)
            {
                path.MoveTo((float)(x + stroke[0].X), (float)-(y + stroke[0].Y));
                foreach (var at in stroke.Count == 1 ? stroke : stroke.Skip(1)) // a dot is a line to itself
                    path.LineTo((float)(x + at.X), (float)-(y + at.Y));
            }
            x += letter.Advance;
        }
        var drawn = path.Detach();
        if (drawn.IsEmpty)
            throw new RefusedException(Name, "nothing but spaces", "one letter or more", "Write something.");
        var bounds = drawn.Bounds;
        var part = new Painted(drawn, SKMatrix.CreateTranslation(-bounds.Left, -bounds.Top), null, Ink.Dark, default);
        return new Drawing(Math.Max(1, bounds.Width), Math.Max(1, bounds.Height), [part]) { IsOfCellCentres = true, Capital = font.Capital };
    }
}
