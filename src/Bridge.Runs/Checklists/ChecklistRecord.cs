using System.Text.Json;
using System.Text.Json.Serialization;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>An item that was answered with yes; a no ends it all before there is a record.</summary>
/// <param name="Id">The item.</param>
/// <param name="Ask">The question as it was asked.</param>
/// <param name="At">When it was answered.</param>
public sealed record ChecklistAnswer(string Id, string Ask, DateTimeOffset At);

/// <summary>Who looked at the machine before it moved, and when; or that nobody did.</summary>
public sealed record ChecklistRecord
{
    /// <summary>The file's name in the folder of a run.</summary>
    public const string FileName = "checklist.json";

    private const int MostFolders = 10_000;
    private const int MostBytes = 262_144;

    private static readonly JsonSerializerOptions Json = new()
    {
        WriteIndented = true,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        MaxDepth = 8,
    };

    /// <summary>The version of the file's format.</summary>
    public int Format { get; init; } = Checklist.Format;

    /// <summary>The machine's name.</summary>
    public required string Machine { get; init; }

    /// <summary>The device that the machine is at.</summary>
    public required string Device { get; init; }

    /// <summary>The list that was asked, by its digest.</summary>
    public required string List { get; init; }

    /// <summary>Who answered; null where nobody was there.</summary>
    public string? Operator { get; init; }

    /// <summary>When the asking began.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Whether every item was asked, or only those of each time.</summary>
    public bool IsWhole { get; init; }

    /// <summary>What was answered with yes.</summary>
    public IReadOnlyList<ChecklistAnswer> Answers { get; init; } = [];

    /// <summary>When the e-stop was seen to open and close again; null where it was not tried this time.</summary>
    public DateTimeOffset? EStopTried { get; init; }

    /// <summary>Writes it through to the disk in a folder, beside one that is there from an earlier part of the same run.</summary>
    /// <exception cref="RefusedException">It cannot be written.</exception>
    public void Save(string folder)
    {
        var path = PathsOf(folder).SkipWhile(File.Exists).FirstOrDefault(Path.Combine(folder, FileName));
        try
        {
            using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.Read);
            JsonSerializer.Serialize(file, this, Json);
            file.Flush(flushToDisk: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(path, $"a file that cannot be written ({error.Message})", "a folder with room that may be written",
                "Nothing was started. Choose another one with --runs.");
        }
    }

    /// <summary>Whether the same machine was looked over as a whole at the same device on the same day.</summary>
    /// <param name="runs">The folder of runs.</param>
    /// <param name="machine">The machine's name.</param>
    /// <param name="device">The device.</param>
    /// <param name="list">The digest of the list that is to be asked: another one was not answered.</param>
    /// <param name="now">The present time at the operator's place.</param>
    public static bool WasWholeToday(string runs, string machine, string device, string list, DateTimeOffset now) =>
        Today(runs, machine, device, now).Any(record => record is { IsWhole: true, Operator: not null } && record.List == list);

    /// <summary>Whether the e-stop of the same machine was tried at the same device on the same day.</summary>
    /// <param name="runs">The folder of runs.</param>
    /// <param name="machine">The machine's name.</param>
    /// <param name="device">The device.</param>
    /// <param name="now">The present time at the operator's place.</param>
    public static bool WasEStopTriedToday(string runs, string machine, string device, DateTimeOffset now) =>
        Today(runs, machine, device, now).Any(record => record.EStopTried is not null);

    /// <summary>Those of a run, in the order of its parts; what cannot be read is left out.</summary>
    public static IReadOnlyList<ChecklistRecord> ReadAll(string folder) =>
        [.. PathsOf(folder).TakeWhile(File.Exists).Select(TryRead).OfType<ChecklistRecord>()];

    private static IEnumerable<string> PathsOf(string folder)
    {
        const int MostOfARun = 1000;
        yield return Path.Combine(folder, FileName);
        for (var part = 2; part < MostOfARun; part++)
            yield return Path.Combine(folder, $"checklist-{part}.json");
    }

    private static IEnumerable<ChecklistRecord> Today(string runs, string machine, string device, DateTimeOffset now) =>
        Folders(runs).Select(folder => TryRead(Path.Combine(folder, FileName))).OfType<ChecklistRecord>()
            .Where(record => record.Machine == machine && record.Device == device && record.At <= now && record.At.ToOffset(now.Offset).Date == now.Date);

    // The newest have the greatest names.
    private static IEnumerable<string> Folders(string runs)
    {
        try
        {
            return Directory.Exists(runs) ? [.. Directory.EnumerateDirectories(runs).OrderDescending(StringComparer.Ordinal).Take(MostFolders)] : [];
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    // A record that cannot be read vouches for nothing.
    private static ChecklistRecord? TryRead(string path)
    {
        try
        {
            var file = new FileInfo(path);
            return file is { Exists: true, Length: <= MostBytes } && JsonSerializer.Deserialize<ChecklistRecord>(File.ReadAllText(file.FullName), Json)
                is { Format: Checklist.Format } record ? record : null;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or JsonException or NotSupportedException)
        {
            return null;
        }
    }
}
