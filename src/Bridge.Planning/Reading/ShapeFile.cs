using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Reads a shape from a file: text layers (.txt), comma-separated cells (.csv), a picture (.png, known by its content too), a drawing (.svg) or
/// a mesh (.stl).
/// </summary>
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

    /// <summary>Reads a file's bytes; its name's extension tells the format, and the options where it lies on the grid.</summary>
    /// <exception cref="RefusedException">The bytes are no shape, or an option is for another format.</exception>
    public static Shape Parse(ReadOnlySpan<byte> content, string name, ShapeOptions options)
    {
        var shape = ParseSolid(content, name, options);
        return options.Hollow is { } wall ? Hollow.Of(shape, wall, name, options) : shape;
    }

    private static Shape ParseSolid(ReadOnlySpan<byte> content, string name, ShapeOptions options) =>
        Path.GetExtension(name).ToUpperInvariant() switch
        {
            _ when ShapePicture.IsPng(content) => PlacedCells.Of(ShapePicture.Parse(content, name, Unplaced(For(Kind.Picture, name, options))), name, options),
            ".PNG" => throw new RefusedException(name, "a file that does not begin as a PNG does", "PNG pictures",
                "Save the picture as PNG."),
            ".TXT" => PlacedCells.Of(ShapeText.Parse(content, name, Unplaced(For(Kind.Cells, name, options))), name, options),
            ".CSV" => PlacedCells.Of(ShapeCsv.Parse(content, name, Unplaced(For(Kind.Cells, name, options))), name, options),
            ".STL" => StlFile.Parse(content, name, For(Kind.Mesh, name, options)),
            ".SVG" => SvgFile.Parse(content, name, For(Kind.Drawing, name, options)),
            _ => throw new RefusedException(name, $"extension '{Path.GetExtension(name)}'", ".txt, .csv, .png, .svg or .stl",
                "Rename the file or save it in one of these formats."),
        };

    // What is turned or moved is held against the limit when it lies in its place.
    private static ShapeOptions Unplaced(ShapeOptions options) =>
        PlacedCells.IsAsItIs(options) ? options : options with { Limit = Shape.LargestGrid };

    private static ShapeOptions For(Kind kind, string name, ShapeOptions options)
    {
        if (options.Height is not null)
            throw Misplaced(kind, name, "a height of letters", "text");
        if (kind is Kind.Cells or Kind.Mesh && options.Threshold is not null)
            throw Misplaced(kind, name, "a threshold", "pictures and drawings, which have greys");
        if (kind is not Kind.Picture && options.Dither)
            throw Misplaced(kind, name, "dithering", "pictures, which have greys");
        if (kind is Kind.Cells && options.Size is not null)
            throw new RefusedException(name, "a shape drawn cell by cell, and a size asked for",
                "a size for pictures, drawings, meshes and text, which are not cells yet", "Leave it out, or draw the shape in that size.");
        if (kind is not Kind.Drawing && options.Wide)
            throw Misplaced(kind, name, "wide strokes", "drawings");
        return options;
    }

    private static RefusedException Misplaced(Kind kind, string name, string found, string good) =>
        new(name, $"{(kind is Kind.Cells ? "cells" : $"a {kind.ToString().ToLowerInvariant()}")}, and {found} asked for", $"that for {good}", "Leave it out.");

    private enum Kind
    {
        Cells,
        Picture,
        Drawing,
        Mesh,
    }
}
