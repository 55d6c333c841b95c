using System.Security.Cryptography;

namespace Bridge.Runs;

/// <summary>The SHA-256 (FIPS 180-4) of each file in a run's folder but the journal.</summary>
public static class FolderDigests
{
    /// <summary>The most files that are looked at: 10 000.</summary>
    public const int MostFiles = 10_000;

    /// <summary>Each file by its name with / between folders, and its digest in 64 hexadecimal digits, in the order of the names.</summary>
    /// <exception cref="IOException">A file cannot be read, or there are too many.</exception>
    /// <exception cref="UnauthorizedAccessException">A file may not be read.</exception>
    public static IReadOnlyDictionary<string, string> Of(RunFolder folder)
    {
        var files = Directory.EnumerateFiles(folder.Path, "*", SearchOption.AllDirectories).Take(MostFiles + 1)
            .Where(path => path != folder.JournalFile && path != folder.JournalFile + FileJournal.LockSuffix).ToList();
        if (files.Count > MostFiles)
            throw new IOException($"more than {MostFiles} files in {folder.Path}");
        var digests = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var path in files)
            digests[Path.GetRelativePath(folder.Path, path).Replace('\\', '/')] = Of(path);
        return digests;
    }

    private static string Of(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete); // the log is still open for writing
        return Convert.ToHexStringLower(SHA256.HashData(file));
    }
}
