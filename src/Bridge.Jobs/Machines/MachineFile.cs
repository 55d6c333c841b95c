namespace Bridge.Jobs;

/// <summary>Reads a machine file: one TOML page (format 1) that says all that the tool needs to know of a machine.</summary>
public static class MachineFile
{
    /// <summary>The format that this program reads.</summary>
    public const int Format = 1;

    /// <summary>Largest machine file in bytes: 64 KiB.</summary>
    public const int MaxBytes = 64 * 1024;

    /// <summary>Every table and key that a machine file may hold, in the order in which people read them.</summary>
    public static IReadOnlyList<MachineFileTable> Tables => MachineFileKeys.Tables;

    /// <summary>Reads the file at a path.</summary>
    /// <exception cref="RefusedException">It cannot be read, or it holds mistakes; all that were found are listed.</exception>
    public static Machine Read(string path)
    {
        var buffer = new byte[MaxBytes + 1];
        int length;
        try
        {
            using var file = File.OpenRead(path);
            length = file.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            var found = trouble.Message.TrimEnd('.');
            throw new RefusedException(path, found, "a machine file that can be read", "Check the path and who may read it.");
        }

        return Parse(buffer.AsSpan(0, length), path);
    }

    /// <summary>Reads a file's bytes, UTF-8 (a byte order mark is accepted); messages call the file by the name.</summary>
    /// <exception cref="RefusedException">They hold mistakes; all found are listed in the order of their places.</exception>
    public static Machine Parse(ReadOnlySpan<byte> bytes, string name)
    {
        var mistakes = new MachineFileMistakes(name);
        var document = MachineFileDocument.Parse(MachineFileText.Decode(bytes, mistakes), mistakes);
        var machine = new MachineFileReader(document, mistakes).Read(MachineDigest.Of(bytes));
        mistakes.RefuseIfAny();
        return machine;
    }
}
