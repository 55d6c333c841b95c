using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>Writes a file whole or not at all: an interrupted write leaves what was there before.</summary>
internal static class OutputFile
{
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        var half = path + ".part";
        try
        {
            File.WriteAllBytes(half, bytes);
            File.Move(half, path, overwrite: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new RefusedException(path, error.Message, "a file that can be written", "Choose another name or folder.");
        }
    }
}
