using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Reads a shape from a file: text layers (.txt), comma-separated cells (.csv) or a picture (.png, known by its content too).</summary>
public static class ShapeFile
{
    /// <summary>Most bytes of a file: 256 MiB.</summary>
    public const int MaxBytes = 256 << 20;

    /// <summary>Whether a file is read by its greys, as pictures are: a threshold is for these alone.</summary>
    /// <exception cref="RefusedException">The file cannot be read, or is too long.</exception>
    public static bool HasGreys(string path) => ShapePicture.IsPng(InputFile.ReadAll(path, MaxBytes));

    /// <summary>Reads the file at a path.</summary>
    /// <exception cref="RefusedException">The file cannot be read, is too long, or is no shape.</exception>
    public static Shape Read(string path, ShapeOptions options) => Parse(InputFile.ReadAll(path, MaxBytes), path, options);

    /// <summary>Reads a file's bytes; its name's extension tells the format.</summary>
    /// <exception cref="RefusedException">The bytes are no shape, or an option is for another format.</exception>
    public static Shape Parse(ReadOnlySpan<byte> content, string name, ShapeOptions options) =>
        Path.GetExtension(name).ToUpperInvariant() switch
        {
            _ when ShapePicture.IsPng(content) => ShapePicture.Parse(content, name, options),
            ".PNG" => throw new RefusedException(name, "a file that does not begin as a PNG does", "PNG pictures",
                "Save the picture as PNG."),
            ".TXT" => ShapeText.Parse(content, name, WithoutGreys(name, options)),
            ".CSV" => ShapeCsv.Parse(content, name, WithoutGreys(name, options)),
            _ => throw new RefusedException(name, $"extension '{Path.GetExtension(name)}'", ".txt, .csv or .png",
                "Rename the file or save it in one of these formats."),
        };

    private static ShapeOptions WithoutGreys(string name, ShapeOptions options) => options is { Threshold: null, Dither: false }
        ? options
        : throw new RefusedException(name, "cells, and a threshold or dithering asked for", "those for pictures alone, which have greys", "Leave them out.");
}
