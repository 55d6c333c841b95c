using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>What is to be run.</summary>
/// <param name="JobName">What the run's folder is named after.</param>
/// <param name="JobBytes">The job file.</param>
/// <param name="MachineName">The machine file's name, for refusals.</param>
/// <param name="MachineBytes">The machine file.</param>
/// <param name="RunsFolder">Where the run's folder is made.</param>
/// <param name="Settings">What the run is told beside.</param>
/// <param name="CountCellsNotAsTold">For a device whose gantry can be looked at: in how many cells it differs from those told; else null.</param>
public sealed record RunRequest(
    string JobName, byte[] JobBytes, string MachineName, byte[] MachineBytes, string RunsFolder, RunSettings Settings,
    Func<WorkedCells, long>? CountCellsNotAsTold = null);

/// <summary>One run with its folder: proves the job, makes the folder, runs, and leaves journal, log, pictures and summary behind.</summary>
public sealed class RunSession : IDisposable
{
    private const int MostDoubtsTold = 100;

    private readonly RunSettings _settings;
    private readonly Func<WorkedCells, long>? _countCellsNotAsTold;
    private readonly ProvedJob _job;
    private readonly FileJournal _journal;
    private readonly RunLog _log;
    private readonly IRunWatcher _watcher;
    private readonly TimeProvider _time;
    private readonly DateTimeOffset _began;
    private readonly TimeSpan _before; // of the whole run's clock, when this stretch began
    private readonly Resumption? _resumed;

    private RunSession(
        RunSettings settings, Func<WorkedCells, long>? countCellsNotAsTold, ProvedJob job, RunFolder folder, FileJournal journal, Resumption? resumed,
        IRunWatcher watcher, TimeProvider time, DateTimeOffset began, TimeSpan before = default)
    {
        (_settings, _countCellsNotAsTold, _job, Folder, _journal, _time, _began) = (settings, countCellsNotAsTold, job, folder, journal, time, began);
        (_resumed, _watcher, _before) = (resumed, watcher, before);
        _log = new RunLog(folder.EventsFile, before == default ? watcher : new LaterWatcher(watcher, before));
        Controller = new RunController(job, settings with { At = began }, journal, _log, resumed);
    }

    /// <summary>Where everything known about the run stands.</summary>
    public RunFolder Folder { get; }

    /// <summary>The run itself, to ask it to hold, go on, stop or abort.</summary>
    public RunController Controller { get; }

    /// <summary>The token of its session on the wire; the next session's has another low octet.</summary>
    public ushort Token => _settings.Token;

    /// <summary>The run in one page, once it has ended; null before.</summary>
    public RunSummary? Summary { get; private set; }

    /// <summary>How long this program was at the run, once it has ended; where it ended at a change of layer, at the last stretch.</summary>
    public TimeSpan Took { get; private set; }

    /// <summary>How long this program was at the run, all its stretches and what was between them.</summary>
    public TimeSpan TookInAll => _before + Took;

    /// <summary>Proves the job and makes the folder. Nothing is sent yet.</summary>
    /// <param name="request">What is to be run.</param>
    /// <param name="watcher">Who watches.</param>
    /// <param name="time">The run's clock, the line's own: real or virtual.</param>
    /// <param name="began">The date and time that the records bear.</param>
    /// <exception cref="RefusedException">A file is not good, the job is not proved for the machine, or the folder cannot be written.</exception>
    public static RunSession Create(RunRequest request, IRunWatcher watcher, TimeProvider time, DateTimeOffset began)
    {
        var machine = MachineFile.Parse(request.MachineBytes, request.MachineName);
        var job = ProvedJob.Of(JobFile.Parse(request.JobBytes, request.JobName), machine);
        var folder = RunFolder.Create(request.RunsFolder, Path.GetFileNameWithoutExtension(request.JobName), began, request.JobBytes, request.MachineBytes);
        return new RunSession(request.Settings, request.CountCellsNotAsTold, job, folder, OpenJournal(folder), null, watcher, time, began);
    }

    /// <summary>Goes on with a run in its own folder. Nothing is sent yet.</summary>
    /// <param name="stopped">The run as it was read from its folder.</param>
    /// <param name="resumed">How it goes on.</param>
    /// <param name="settings">What the run is told beside; its number on the wire is the resumption's.</param>
    /// <param name="watcher">Who watches.</param>
    /// <param name="time">The run's clock, the line's own: real or virtual.</param>
    /// <param name="began">The date and time that the records bear.</param>
    /// <exception cref="RefusedException">The journal cannot be written, or another program has it.</exception>
    public static RunSession GoOn(
        StoppedRun stopped, Resumption resumed, RunSettings settings, IRunWatcher watcher, TimeProvider time, DateTimeOffset began) =>
        new(settings with { RunId = resumed.RunId }, null, stopped.Job, stopped.Folder, OpenJournal(stopped), resumed, watcher, time, began);

    /// <summary>What the machine told when it referenced again after the run; null where it did not.</summary>
    public ReferencedAgain? Found { get; private set; }

    /// <summary>The seal of the record, once the run has ended: the journal's last link, which vouches for all of the folder. Null for none.</summary>
    public string? Seal { get; private set; }

    /// <summary>Runs over a line to the end, then writes pictures and summary, and seals the record.</summary>
    /// <param name="line">An open line to the device.</param>
    /// <param name="again">Has the machine reference again after a run that is complete, given what was worked; null where it is not to.</param>
    public async Task<RunEnd> RunAsync(ILine line, Func<WorkedCells, Task<ReferencedAgain?>>? again = null)
    {
        var start = _time.GetTimestamp();
        var end = await RunLoop.RunAsync(Controller, line, _time).ConfigureAwait(false);
        Took = _time.GetElapsedTime(start);
        _log.Ended(end, Controller);
        if (end.Outcome == RunOutcome.Complete && again is not null)
            Found = await FindAsync(again).ConfigureAwait(false);
        if (Found is not null)
            Controller.Journal.Referenced(_time.GetElapsedTime(start), Found.Lost, Found.Took);
        return WriteRecords(end, _time.GetElapsedTime(start));
    }

    /// <summary>
    /// The next stretch of a run that has ended at a change of layer, in the same folder; nothing is sent yet. It begins with the references, and tells
    /// how far the counts were off. What is asked of the run that has ended, from there on, is asked of this one. This session is disposed of.
    /// </summary>
    /// <param name="layer">The layer that begins, from 0.</param>
    /// <param name="until">The record before which it ends in turn; null for the job's end.</param>
    /// <exception cref="RefusedException">The journal cannot be read or written.</exception>
    public RunSession AfterLayer(int layer, long? until)
    {
        Dispose();
        var stopped = StoppedRun.Read(Folder.Path);
        Debug.Assert(stopped.History.Outcome == RunOutcome.LayerDone, "Whatever the journal was not told ends the run.");
        var point = new ResumePoint.AfterRestart(stopped.History.Known, stopped.History.Records, stopped.History.Cells, Doubt: null);
        var resumed = Resumption.AfterRestart(stopped.History, stopped.Job, point, point.Known, NextRun(_settings.RunId));
        var settings = _settings with
        {
            RunId = resumed.RunId,
            Token = SessionToken.After(_settings.Token),
            AwaitsStart = false,
            LayerBegun = layer,
            Until = until,
        };
        var next = new RunSession(settings, _countCellsNotAsTold, stopped.Job, stopped.Folder, OpenJournal(stopped), resumed, _watcher, _time,
            _began + Took, TookInAll);
        Controller.HandOver(next.Controller.Request);
        return next;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _log.Dispose();
        _journal.Dispose();
    }

    private static ushort NextRun(ushort run) => (ushort)(run == ushort.MaxValue ? 1 : run + 1);

    private static FileJournal OpenJournal(RunFolder folder) =>
        OpenJournal(folder, "Nothing was started. Choose another one with --runs.", () => new FileJournal(folder.JournalFile));

    private static FileJournal OpenJournal(StoppedRun stopped) =>
        OpenJournal(stopped.Folder, "Nothing was started. See that no other program goes on with the same run.",
            () => FileJournal.GoOn(stopped.Folder.JournalFile, stopped.Journal));

    private static FileJournal OpenJournal(RunFolder folder, string action, Func<FileJournal> open)
    {
        try
        {
            return open();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(folder.JournalFile, $"a journal that cannot be opened ({error.Message})", "a folder with room that may be written",
                action);
        }
    }

    private async Task<ReferencedAgain?> FindAsync(Func<WorkedCells, Task<ReferencedAgain?>> again)
    {
        if (!Controller.IsRestWanted)
            return await again(Controller.Worked).ConfigureAwait(false);
        _watcher.Told("The machine was asked to stand still as the job ended: it does not move again.");
        return null;
    }

    private RunEnd WriteRecords(RunEnd end, TimeSpan now)
    {
        Summary = SummaryOf(end);
        try
        {
            LayerPicture.DrawAll(Controller.Worked, Folder.Pictures);
            File.WriteAllText(Folder.SummaryFile, Summary.ToJson());
            if (_journal.Chain is not null)
                Controller.Journal.Seal(now, _began + now, FolderDigests.Of(Folder));
            Seal = Controller.Journal.IsWritten ? _journal.Chain?.ToString() : null;
            return end;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return end with { Words = $"{end.Words} The pictures or the summary could not be written ({error.Message}); the journal has the run." };
        }
    }

    private RunSummary SummaryOf(RunEnd end) => new()
    {
        Outcome = end.Outcome,
        Words = end.Words,
        WhatToDo = end.WhatToDo,
        Machine = _job.Machine.Name,
        MachineDigest = _job.Machine.Digest.ToString(),
        JobDigest = _job.JobDigest,
        Device = _settings.Device,
        Began = _resumed is null ? _began : _resumed.Earlier.Began,
        Seconds = Math.Round((_resumed?.Earlier.Seconds ?? 0) + Took.TotalSeconds, 3),
        JobSeconds = JobSeconds is { } seconds ? Math.Round(seconds, 3) : null,
        PredictedSeconds = Math.Round(Timetable.Of(_job.Job.Image, _job.Machine).Seconds, 3),
        Records = _job.RecordsToSend,
        RecordsDone = Controller.Progress.Records,
        WorkedByA = Controller.Worked.Counts.A,
        WorkedByB = Controller.Worked.Counts.B,
        CellsNotAsTold = _countCellsNotAsTold?.Invoke(Controller.Worked),
        Doubts = Doubts is [] ? null : Doubts,
        Lost = Found?.Lost,
        FramesSent = Controller.FramesSent,
        FramesReceived = Controller.Received.Good,
        RoundTrips = Controller.RoundTrips.Count,
        RoundTripMs = RoundTripMs.Of(Controller.RoundTrips),
        Retransmissions = Controller.Retransmissions,
        DamagedFrames = Controller.Received.BadFcs,
        Program = ProgramVersion.Text,
    };

    // Of all parts in which the job got under way; null where it did in none.
    private double? JobSeconds => (_resumed?.Earlier.JobSeconds, (Took - Controller.StartedAt)?.TotalSeconds) switch
    {
        (null, var now) => now,
        (var before, null) => before,
        var (before, now) => before + now,
    };

    private IReadOnlyList<SettledDoubt> Doubts => _resumed is null ? []
        : [.. _resumed.Earlier.Settled.Concat(_resumed.Settled is { } settled ? [settled] : []).TakeLast(MostDoubtsTold)];
}
