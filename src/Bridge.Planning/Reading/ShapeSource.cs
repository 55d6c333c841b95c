using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Where a shape comes from: a file, or text in the letters of a font.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Files">The files that are read.</param>
/// <param name="HasGreys">Tells whether it has greys, which a threshold parts.</param>
/// <param name="Read">Reads it.</param>
public sealed record ShapeSource(string Name, IReadOnlyList<string> Files, Func<bool> HasGreys, Func<ShapeOptions, Shape> Read)
{
    /// <summary>A file.</summary>
    /// <exception cref="RefusedException">Thrown where it is read: it cannot be, or is no shape.</exception>
    public static ShapeSource File(string path) => new(path, [path], () => ShapeFile.HasGreys(path), options => ShapeFile.Read(path, options));

    /// <summary>The bytes of a file, whose name's extension tells the format.</summary>
    /// <exception cref="RefusedException">Thrown where it is read: the bytes are no shape.</exception>
    public static ShapeSource Bytes(ReadOnlyMemory<byte> content, string name) =>
        new(name, [], () => ShapePicture.IsPng(content.Span), options => ShapeFile.Parse(content.Span, name, options));

    /// <summary>Text, by a font file or in the plain alphabet.</summary>
    public static ShapeSource Text(string text, string? font) => new("text", font is null ? [] : [font], () => false,
        options => TextShape.Of(text, font is null ? StrokeFont.Plain : HersheyFile.Read(font), options));
}
