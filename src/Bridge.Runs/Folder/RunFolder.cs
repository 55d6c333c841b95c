using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>The folder that holds everything known about one run.</summary>
public sealed class RunFolder
{
    private const int MostOfOneSecond = 1000;

    private RunFolder(string path) => Path = path;

    /// <summary>The folder itself.</summary>
    public string Path { get; }

    /// <summary>The job that was run.</summary>
    public string JobFile => In("job.job");

    /// <summary>The machine file that it was run with.</summary>
    public string MachineFile => In("machine.toml");

    /// <summary>What happened, written through entry by entry.</summary>
    public string JournalFile => In("journal.jsonl");

    /// <summary>The diagnostic log, in compact JSON.</summary>
    public string EventsFile => In("events.clef");

    /// <summary>The run in one page of JSON.</summary>
    public string SummaryFile => In("summary.json");

    /// <summary>One picture of what was worked for each layer.</summary>
    public string Pictures => In("pictures");

    /// <summary>
    /// Makes a folder named by time and job, UTC: 2026-05-04T16-20-00Z-kite; a number is added where that is taken. Puts job and machine file into it.
    /// </summary>
    /// <exception cref="RefusedException">It cannot be made or written.</exception>
    public static RunFolder Create(string runs, string jobName, DateTimeOffset now, byte[] job, byte[] machine) =>
        Written(runs, () => new RunFolder(MakeNew(runs, NameOf(now, jobName), making =>
        {
            File.WriteAllBytes(making.JobFile, job);
            File.WriteAllBytes(making.MachineFile, machine);
        })));

    /// <summary>The folder of a run that was.</summary>
    /// <exception cref="RefusedException">There is no such folder, or it is none of a run.</exception>
    public static RunFolder Open(string path)
    {
        var folder = new RunFolder(path);
        foreach (var file in new[] { folder.JobFile, folder.MachineFile, folder.JournalFile })
            if (!File.Exists(file))
                throw new RefusedException(path, $"no {System.IO.Path.GetFileName(file)}", "the folder of a run, with its job, machine file and journal",
                    "Give the folder that bridge run named at its end.");
        return folder;
    }

    /// <summary>Whether a file lies, or would lie, in the folder of a run or among its pictures.</summary>
    public static bool IsRecord(string file)
    {
        var folder = System.IO.Path.GetDirectoryName(file);
        return new[] { folder, System.IO.Path.GetDirectoryName(folder) }.OfType<string>().Any(place => File.Exists(new RunFolder(place).JournalFile));
    }

    /// <summary>Makes a folder for something else than a run, named in the same way, with nothing in it yet.</summary>
    /// <exception cref="RefusedException">It cannot be made.</exception>
    public static string MakeBeside(string runs, string name, DateTimeOffset now) => Written(runs, () => MakeNew(runs, NameOf(now, name), _ => { }));

    private static string NameOf(DateTimeOffset now, string name) =>
        $"{now.UtcDateTime.ToString("yyyy-MM-ddTHH-mm-ssZ", CultureInfo.InvariantCulture)}-{FileName(name)}";

    private static T Written<T>(string runs, Func<T> write)
    {
        try
        {
            return write();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new RefusedException(runs, File.Exists(runs) ? "a file" : $"a folder that cannot be written ({error.Message})",
                "a folder with room that may be written",
                "Nothing was started. Choose another one with --runs.");
        }
    }

    // Made whole under a name of its own, so that half a folder is no run, and then moved: of two programs that want a name at the same moment one gets it,
    // which making a folder would not tell.
    private static string MakeNew(string runs, string name, Action<RunFolder> fill)
    {
        var own = $".bridge-{Environment.ProcessId}-{Environment.CurrentManagedThreadId}.part";
        var making = new RunFolder(Directory.CreateDirectory(System.IO.Path.Combine(System.IO.Path.GetFullPath(runs), own)).FullName);
        try
        {
            fill(making);
            for (var count = 1; count < MostOfOneSecond; count++)
            {
                var path = System.IO.Path.Combine(System.IO.Path.GetFullPath(runs), count == 1 ? name : $"{name}-{count}");
                if (TryMove(making.Path, path))
                    return path;
            }

            throw new IOException($"{MostOfOneSecond} runs of one second are there already");
        }
        catch
        {
            Directory.Delete(making.Path, recursive: true);
            throw;
        }
    }

    private static bool TryMove(string folder, string path)
    {
        if (Directory.Exists(path) || File.Exists(path))
            return false;
        try
        {
            Directory.Move(folder, path);
            return true;
        }
        catch (IOException) when (Directory.Exists(folder) && Directory.Exists(path))
        {
            return false;
        }
    }

    private static string FileName(string name)
    {
        var plain = string.Concat(name.Select(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' ? letter : '-'));
        return plain.Length == 0 ? "job" : plain[..Math.Min(plain.Length, 40)];
    }

    private string In(string name) => System.IO.Path.Combine(Path, name);
}
