using System.Text.Json;

namespace Bridge.Cli;

/// <summary>Which steps of a machine's setup are done, kept in a file beside the machine file so that it can be left and gone on with.</summary>
internal sealed class SetupProgress
{
    private const int MostBytes = 65_536;

    private readonly string? _path;
    private readonly SortedDictionary<string, DateTimeOffset> _done;

    private SetupProgress(string? path, SortedDictionary<string, DateTimeOffset> done) => (_path, _done) = (path, done);

    /// <summary>Of a rehearsal, which leaves nothing behind.</summary>
    public static SetupProgress None => new(null, []);

    /// <summary>Of a machine file. A file of progress that cannot be read counts as none.</summary>
    public static SetupProgress Of(string machinePath)
    {
        var path = machinePath + ".setup.json";
        try
        {
            var file = new FileInfo(path);
            var done = file is { Exists: true, Length: <= MostBytes }
                ? JsonSerializer.Deserialize<SortedDictionary<string, DateTimeOffset>>(File.ReadAllText(path))
                : null;
            return new SetupProgress(path, done ?? []);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or JsonException)
        {
            return new SetupProgress(path, []);
        }
    }

    /// <summary>When a step was done; null where it was not.</summary>
    public DateTimeOffset? DoneAt(string step) => _done.TryGetValue(step, out var at) ? at : null;

    /// <summary>Notes a step as done, or as not done.</summary>
    public void Note(string step, DateTimeOffset? at)
    {
        if (at is { } moment)
            _done[step] = moment;
        else
            _done.Remove(step);
        if (_path is not null)
            new OutputFiles([], ("setup", _path)).Write(JsonSerializer.SerializeToUtf8Bytes(_done));
    }
}
