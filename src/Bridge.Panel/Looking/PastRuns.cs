using System.Collections.Concurrent;
using System.Security.Cryptography;
using Bridge.History;
using Bridge.Jobs;

namespace Bridge.Panel;

/// <summary>The runs that were.</summary>
/// <param name="Runs">The newest first, 200 at most.</param>
/// <param name="InAll">How many there are.</param>
/// <param name="Unreadable">In words, what looks like a run and cannot be read.</param>
public sealed record PastRunsView(IReadOnlyList<PastRunView> Runs, int InAll, IReadOnlyList<string> Unreadable);

/// <summary>A run that was.</summary>
public sealed record PastRunView(
    string Name, string Machine, string Device, DateTimeOffset? Began, string Outcome, long? Records, long? RecordsDone, double? Seconds,
    double? PredictedSeconds, IReadOnlyList<string> Pictures);

/// <summary>Looks at the runs that were, by the names of their folders; a name from a page is nothing but one of those.</summary>
/// <param name="runs">The folder of runs.</param>
/// <param name="time">Tells when a ticket is old.</param>
public sealed class PastRuns(string runs, TimeProvider time)
{
    /// <summary>The most that are listed.</summary>
    public const int MostListed = 200;

    private const int MostPictures = 4096;
    private const int MostPictureBytes = 64 << 20;
    private const int MostTickets = 100;

    private static readonly TimeSpan TicketLife = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<string, (string Run, long Given)> _tickets = new();

    /// <summary>The list.</summary>
    /// <exception cref="RefusedException">The folder cannot be read.</exception>
    public PastRunsView All()
    {
        if (!Directory.Exists(runs))
            return new PastRunsView([], 0, []);
        var (lines, unreadable) = RunLine.ReadAll(runs);
        return new PastRunsView([.. lines.Reverse().Take(MostListed).Select(Of)], lines.Count, unreadable);
    }

    /// <summary>A name for the address of a run's report that is good for a minute: a browser's own window has no key.</summary>
    /// <exception cref="RefusedException">There is no such run.</exception>
    public string TicketFor(string run)
    {
        FolderOf(run);
        foreach (var old in _tickets.Where(ticket => !IsGood(ticket.Value.Given)).Select(ticket => ticket.Key).ToList())
            _tickets.TryRemove(old, out _);
        if (_tickets.Count >= MostTickets)
            _tickets.Clear();
        var name = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        _tickets[name] = (run, time.GetTimestamp());
        return name;
    }

    /// <summary>The report that a ticket is for, as HTML; null for one that is old or was never given.</summary>
    /// <exception cref="RefusedException">The run cannot be read.</exception>
    public string? ReportOf(string ticket) => _tickets.TryGetValue(ticket, out var run) && IsGood(run.Given)
        ? HtmlPage.Of(RunReport.Of(PastRun.Read(FolderOf(run.Run))))
        : null;

    /// <summary>A picture of a run; null where it has none of that name.</summary>
    /// <exception cref="RefusedException">There is no such run, or the picture cannot be read.</exception>
    public byte[]? PictureOf(string run, string file)
    {
        var folder = FolderOf(run);
        return PicturesOf(folder).Contains(file) ? InputFile.ReadAll(Path.Combine(folder, "pictures", file), MostPictureBytes) : null;
    }

    private static PastRunView Of(RunLine run) => new(run.Name, run.Machine, run.Device, run.Began, run.OutcomeWord, run.Records, run.RecordsDone,
        run.JobSeconds, run.PredictedSeconds, [.. PicturesOf(run.Path)]);

    private static IEnumerable<string> PicturesOf(string folder) => new DirectoryInfo(Path.Combine(folder, "pictures")) is { Exists: true } pictures
        ? pictures.EnumerateFiles("*.png").Take(MostPictures).Select(file => file.Name).Order(StringComparer.Ordinal)
        : [];

    private bool IsGood(long given) => time.GetElapsedTime(given) <= TicketLife;

    private string FolderOf(string name)
    {
        var folder = Directory.Exists(runs) ? Directory.EnumerateDirectories(runs).FirstOrDefault(path => Path.GetFileName(path) == name) : null;
        return folder ?? throw new RefusedException("run", "a name that no run has", "the name of a run in the list", "Look at the list again.");
    }
}
