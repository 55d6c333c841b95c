using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Reads a shape from a file: text layers (.txt), comma-separated cells (.csv) or a picture (.png, known by its content too).</summary>
public static class ShapeFile
{
    /// <summary>Most bytes of a file: 256 MiB.</summary>
    public const int MaxBytes = 256 << 20;

    /// <summary>Reads a file.</summary>
    /// <exception cref="RefusedException">The file cannot be read, is too long, or is no shape.</exception>
    public static Shape Read(string path, ShapeOptions options)
    {
        try
        {
            using var file = File.OpenRead(path);
            return Read(file, Path.GetFileName(path), options);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException { ParamName: "path" })
        {
            throw new RefusedException(path, trouble.Message, "a file that can be read", "Check the name and who may read it.");
        }
    }

    /// <summary>Reads a stream to its end; its name's extension tells the format.</summary>
    /// <exception cref="RefusedException">The content is too long or is no shape.</exception>
    public static Shape Read(Stream stream, string name, ShapeOptions options)
    {
        var content = Content(stream, name);
        return Path.GetExtension(name).ToUpperInvariant() switch
        {
            _ when ShapePicture.IsPng(content) => ShapePicture.Read(content, name, options),
            ".PNG" => throw new RefusedException(name, "a file that does not begin as a PNG does", "PNG pictures", "Save the picture as PNG."),
            ".TXT" => ShapeText.Read(content, name, options),
            ".CSV" => ShapeCsv.Read(content, name, options),
            _ => throw new RefusedException(name, $"extension '{Path.GetExtension(name)}'", ".txt, .csv or .png", "Rename the file or save it in one of these formats."),
        };
    }

    private static ReadOnlySpan<byte> Content(Stream stream, string name)
    {
        var content = new MemoryStream();
        var piece = new byte[64 << 10];
        while (stream.Read(piece) is > 0 and var count)
        {
            if (content.Length + count > MaxBytes)
                throw new RefusedException(name, $"more than {MaxBytes} bytes", $"at most {MaxBytes} bytes", "Cut the shape into parts.");
            content.Write(piece, 0, count);
        }
        return content.GetBuffer().AsSpan(0, (int)content.Length);
    }
}
