using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>Where a shape comes from: a file, or text in the letters of a font.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Files">The files that are read.</param>
/// <param name="HasGreys">Tells whether it has greys, which a threshold parts.</param>
/// <param name="Read">Reads it.</param>
internal sealed record ShapeSource(string Name, IReadOnlyList<string> Files, Func<bool> HasGreys, Func<ShapeOptions, Shape> Read)
{
    /// <summary>A file.</summary>
    public static ShapeSource File(string path) => new(path, [path], () => ShapeFile.HasGreys(path), options => ShapeFile.Read(path, options));

    /// <summary>Text, by a font file or in the plain alphabet.</summary>
    public static ShapeSource Text(string text, string? font) => new("text", font is null ? [] : [font], () => false,
        options => TextShape.Of(text, font is null ? StrokeFont.Plain : HersheyFile.Read(font), options));
}
