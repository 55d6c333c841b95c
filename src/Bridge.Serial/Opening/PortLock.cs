namespace Bridge.Serial;

/// <summary>
/// The right to use a port: a lock file in the folder for temporary files, named by the port's real path, held open and unshared.
/// The system gives it up when the process ends, however it ends. It binds Bridge's own processes, nobody else's.
/// </summary>
internal sealed class PortLock : IDisposable
{
    private const int LongestName = 200;

    private readonly FileStream file;

    private PortLock(FileStream file) => this.file = file;

    /// <summary>Takes the lock for a port, or returns null if another holds it.</summary>
    /// <exception cref="IOException">The lock file cannot be made or opened.</exception>
    public static PortLock? TryTake(string portName)
    {
        var path = Path.Combine(Path.GetTempPath(), FileNameFor(portName));
        try
        {
            return new PortLock(Open(path));
        }
        catch (IOException) when (File.Exists(path))
        {
            return null;
        }
        catch (UnauthorizedAccessException)
        {
            throw new IOException($"this user has no right to its lock file, {path}");
        }
    }

    /// <inheritdoc/>
    // The file stays: who deletes a lock file may delete one that another process has just taken.
    public void Dispose() => file.Dispose();

    // A file left by another user may be read but not written, and reading is enough to lock it.
    private static FileStream Open(string path) => File.Exists(path)
        ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.None)
        : new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);

    private static string FileNameFor(string portName)
    {
        var escaped = Uri.EscapeDataString(RealPath(portName));
        return $"bridge-port-{(escaped.Length > LongestName ? escaped[^LongestName..] : escaped)}.lock";
    }

    // A port often has several names: links that say which device it is.
    private static string RealPath(string portName)
    {
        if (OperatingSystem.IsWindows())
            return portName.ToUpperInvariant();
        var path = Path.GetFullPath(portName);
        return File.Exists(path) ? File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path : path;
    }
}
