using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Files that a command will write. They are looked at before the work, and written whole or not at all when it is done.</summary>
internal sealed class OutputFiles
{
    // What stands in these folders is no file, and must not be replaced by one.
    private static readonly string[] NoFiles = ["/dev/", "/proc/", "/sys/"];

    // Machines, layouts, stations and shapes; no command writes any of these but the machine file that it is told to change.
    private static readonly string[] MadeByHand = [".toml", ".stl", ".png", ".jhf"];

    private readonly List<(string Named, string Real)> _files = [];

    /// <summary>Looks at the files: none may be a folder, an input, or named twice, and each must be one that can be written.</summary>
    /// <param name="inputs">Files that are read.</param>
    /// <param name="outputs">Option and path of each file; a null path is none.</param>
    /// <exception cref="RefusedException">One cannot be written.</exception>
    public OutputFiles(IEnumerable<string> inputs, params IEnumerable<(string Option, string? Path)> outputs)
    {
        var read = inputs.Select(RealOf).ToList();
        foreach (var (option, path) in outputs)
            if (path is not null)
                Add(option, path, read);
    }

    /// <summary>Writes all of them, or none where one cannot be written. What was there before stays until all are whole.</summary>
    /// <param name="contents">The bytes of each, in the order in which they were named.</param>
    /// <exception cref="RefusedException">One cannot be written.</exception>
    public void Write(params IReadOnlyList<ReadOnlyMemory<byte>> contents) =>
        Write([.. contents.Select(bytes => (Action<Stream>)(file => file.Write(bytes.Span)))]);

    /// <summary>The same, of what is written piece by piece.</summary>
    /// <param name="contents">Writes each, in the order in which they were named. Whatever it throws, nothing is written.</param>
    public void Write(params IReadOnlyList<Action<Stream>> contents)
    {
        var halves = new List<string>();
        foreach (var ((named, real), write) in _files.Zip(contents))
            Try(named, halves, () =>
            {
                // Named by the process: two of them do not meet, and it is no longer than a name may be.
                var half = Path.Combine(Path.GetDirectoryName(real)!, $".bridge-{Environment.ProcessId}-{halves.Count}.part");
                halves.Add(half);
                using var file = new FileStream(half, FileMode.Create, FileAccess.Write, FileShare.None);
                write(file);
                file.Flush(flushToDisk: true);
            });
        for (var index = 0; index < _files.Count; index++)
            Try(_files[index].Named, halves, () => File.Move(halves[index], _files[index].Real, overwrite: true));
    }

    private void Add(string option, string path, List<string> read)
    {
        var real = RealOf(path);
        if (Directory.Exists(real) || Path.EndsInDirectorySeparator(path))
            throw new RefusedException($"{option} {path}", "a folder", "a file", "Name a file in it.");
        if (!Directory.Exists(Path.GetDirectoryName(real)))
            throw new RefusedException($"{option} {path}", "no such folder", "a file in a folder that is there", "Make the folder, or choose another one.");
        if (!OperatingSystem.IsWindows() && NoFiles.Any(folder => real.StartsWith(folder, StringComparison.Ordinal)))
            throw new RefusedException($"{option} {path}", "a place of the system's", "a file in a folder of yours", "Choose another name or folder.");
        if (RunFolder.IsRecord(real))
            throw new RefusedException($"{option} {path}", "a place in the folder of a run", "a file outside it",
                "Choose another folder: what a run left stays as it is.");
        if (read.Any(input => RealPath.Same(input, real)))
            throw new RefusedException($"{option} {path}", "a file that is read", "another file", "Choose another name: it would be overwritten.");
        if (option != "--machine" && File.Exists(real) && MadeByHand.Contains(Path.GetExtension(real), StringComparer.OrdinalIgnoreCase))
            throw new RefusedException($"{option} {path}", "a file that a person made", "a new name, or a file of this command's to be replaced",
                "Choose another name: it would be lost.");
        if (_files.Any(file => RealPath.Same(file.Real, real)))
            throw new RefusedException($"{option} {path}", "a file that is to be written already", "another file", "Choose another name.");
        Try($"{option} {path}", [], () => Probe(real));
        _files.Add((path, real));
    }

    // Renaming a new file over an old one would need no leave to write the old one, and would meet a name that is too long only then.
    private static void Probe(string real)
    {
        using var file = File.Exists(real)
            ? new FileStream(real, FileMode.Open, FileAccess.Write)
            : new FileStream(real, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
    }

    private static string RealOf(string path)
    {
        try
        {
            return RealPath.Of(path);
        }
        catch (Exception error) when (IsExpected(error))
        {
            throw new RefusedException(path, error.Message.TrimEnd('.'), "the name of a file", "Choose another name or folder.");
        }
    }

    private static void Try(string path, List<string> halves, Action write)
    {
        try
        {
            write();
        }
        catch (Exception error)
        {
            foreach (var half in halves)
                Discard(half);
            if (!IsExpected(error))
                throw;
            throw new RefusedException(path, error.Message.TrimEnd('.'), "a file that can be written", "Choose another name or folder.");
        }
    }

    private static void Discard(string half)
    {
        try
        {
            File.Delete(half);
        }
        catch (Exception error) when (IsExpected(error))
        {
            // The trouble that led here is the one to tell.
        }
    }

    private static bool IsExpected(Exception error) =>
        error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException;
}
