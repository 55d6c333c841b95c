namespace Bridge.Jobs;

/// <summary>Reads a file that a person named, within a bound.</summary>
public static class InputFile
{
    /// <summary>All bytes of a file of at most so many.</summary>
    /// <exception cref="RefusedException">It is not there, may not be read, or is larger.</exception>
    public static byte[] ReadAll(string path, long mostBytes) => Read(path, file =>
    {
        if (file.Length > mostBytes)
            throw new RefusedException(path, $"{file.Length} bytes", $"up to {mostBytes} bytes", "Is this the right file?");
        var bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes;
    });

    /// <summary>The first bytes of a file, so many or as many as it has.</summary>
    /// <exception cref="RefusedException">It is not there or may not be read.</exception>
    public static byte[] ReadFirst(string path, int bytes) => Read(path, file =>
    {
        var first = new byte[bytes];
        return first[..file.ReadAtLeast(first, bytes, throwOnEndOfStream: false)];
    });

    private static byte[] Read(string path, Func<FileStream, byte[]> read)
    {
        try
        {
            if (Directory.Exists(path))
                throw new RefusedException(path, "a folder", "a file", "Name the file itself.");
            using var file = File.OpenRead(path);
            return read(file);
        }
        catch (Exception error) when (error is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new RefusedException(path, "no such file", "a file that is there", "Check the name and the folder.");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new RefusedException(path, error.Message.TrimEnd('.'), "a file that can be read", "Check the name and its permissions.");
        }
    }
}
