using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>
/// One attempt of a host to get the job done: it reads the journal, looks at the board, and begins or goes on, as the program does. It ends as the
/// run ends, or with the host's death.
/// </summary>
internal sealed class Attempt(World world, FaultPlan plan, ushort number, bool redoes)
{
    // A session's token differs from the one before in its low octet, and the run takes another one or two.
    private readonly ushort _token = (ushort)(number * 16 + 1);

    // Layers that were done in it.
    private int _stretches;

    /// <summary>Makes it. True if the job is complete.</summary>
    public bool Make()
    {
        var line = world.Open(plan);
        try
        {
            return Go(line);
        }
        catch (HostDiedException)
        {
            world.Tell("the host died");
            return false;
        }
        finally
        {
            world.Close();
        }
    }

    /// <summary>A new part of the run begins, on the gantry's own count; at the place that was chosen, and at no other.</summary>
    public static void BeginStretch(World world, ushort runId, JobPlace start)
    {
        Fail.If(start != world.Settled.From, $"the run was to go on from {world.Settled.From}, and goes on from {start}");
        world.Watch.Workings.Settle(world.Settled);
        var (image, grid) = (world.Job.Job.Job.Image, world.Job.Machine.Grid);
        var course = start == default ? Course.Whole(image, grid) : Course.From(image, grid, start);
        world.Watch.Begin(new Stretch(runId, course, world.Job.CellsBefore(start), world.Board.Worked));
    }

    private bool Go(SimulatedLine line)
    {
        var journal = JournalFile.Parse(world.Disk.Contents, "journal");
        if (journal.Entries.Count == 0)
            return Run(line, journal, null);
        if (world.Plant == Plant.RefusesJournal)
            throw new RefusedException("journal", "a run that was begun", "none", "This defect is planted.");
        var history = RunHistory.Of(journal, "journal", world.Job.Job);
        TakeIn(history);
        if (history.Outcome == RunOutcome.Complete)
            return true;
        if (new Teller(line, () => TimeSpan.FromMicroseconds(world.Now), _token).WaitForRest() is not { } status)
            return false;
        world.Tell($"found {status.State} {status.Cause} run {status.RunId} "
            + $"taken {status.RecordsTaken} done {status.RecordsDone} {status.CellsDone}, truth {world.Watch.Truth}");
        return ResumePoint.Of(history, world.Job.Job, status) switch
        {
            ResumePoint.OnDevice => TakeUp(line, journal, history),
            ResumePoint.AfterRestart restart => Run(line, journal, Resumption.AfterRestart(history, world.Job.Job, restart, Settle(restart), NewRun)),
            ResumePoint.Complete => true,
            var point => throw new SimulationFailedException($"the run cannot be gone on with: {point}, {status.State} by run {status.RunId}"),
        };
    }

    private ushort NewRun => (ushort)(number * 100 + _stretches);

    // A host that died after an entry was written never knew of it.
    private void TakeIn(RunHistory history)
    {
        if (world.Watch.Stretch?.RunId != history.RunId)
            BeginStretch(world, history.RunId, history.Course.Start);
        world.Watch.JournalSent = history.Sent;
        var known = world.Job.CellsBefore(history.Known);
        Fail.If(known > world.Watch.Truth, $"the journal knows of {known} cells, and {world.Watch.Truth} were worked");
    }

    private JobPlace Settle(ResumePoint.AfterRestart point)
    {
        var known = world.Job.CellsBefore(point.Known);
        var furthest = point.Doubt is not { } doubt ? known : world.Job.CellsBefore(
            doubt.RecordsAfter > 0 ? new JobPlace(point.Known.Records + 1 + doubt.RecordsAfter, 0) : doubt.Skip);
        Fail.If(world.Watch.Truth < known || world.Watch.Truth > furthest,
            $"{known} cells are said to be worked and those up to {furthest} in doubt, and {world.Watch.Truth} are worked");
        world.Tell($"known {known}, in doubt up to {furthest}, truth {world.Watch.Truth}");
        var decision = redoes ? InDoubt.Redo : InDoubt.Skip;
        world.Settled = new Settlement(point.Doubt is null || redoes ? point.Known : point.Doubt.Skip, point.Doubt, decision);
        var next = new JobPlace(world.Settled.From.Records + 1, 0);
        if (world.Plant == Plant.LeavesOutARecord && point.Doubt is null)
            world.Settled = world.Settled with { From = next };
        return world.Plant switch
        {
            Plant.ResumesTooFar => next,
            Plant.SkipsForRedo when point.Doubt is { } doubtful => doubtful.Skip,
            _ => world.Settled.From,
        };
    }

    // Who takes up a run says that it goes on.
    private bool TakeUp(SimulatedLine line, JournalFile journal, RunHistory history)
    {
        world.Watch.Leave.Give();
        return Run(line, journal, Resumption.OnDevice(history));
    }

    private bool Run(SimulatedLine line, JournalFile journal, Resumption? resumed)
    {
        var (run, end) = RunStretch(line, journal, resumed, layer: null);
        while (end.Outcome == RunOutcome.LayerDone)
            (run, end) = AfterLayer(line, run);
        return Judge(run, end);
    }

    // As RunSession.AfterLayer does it.
    private (RunController Run, RunEnd End) AfterLayer(SimulatedLine line, RunController ended)
    {
        world.LayerIsDone();
        _stretches++;
        var journal = JournalFile.Parse(world.Disk.Contents, "journal");
        var history = RunHistory.Of(journal, "journal", world.Job.Job);
        Fail.If(history.Outcome != RunOutcome.LayerDone, $"the journal does not know that a layer is done");
        var point = new ResumePoint.AfterRestart(history.Known, history.Records, history.Cells, Doubt: null);
        var layer = world.Job.LayerAfter(history.Known.Records - 1)!;
        Fail.If(layer.Record != history.Known.Records, $"the run stands at record {history.Known.Records}, and the layer begins at {layer.Record}");
        world.Settled = new Settlement(point.Known, null, default);
        return RunStretch(line, journal, Resumption.AfterRestart(history, world.Job.Job, point, point.Known, NewRun), layer.Layer, ended);
    }

    private (RunController Run, RunEnd End) RunStretch(
        SimulatedLine line, JournalFile journal, Resumption? resumed, int? layer, RunController? ended = null)
    {
        var settings = new RunSettings
        {
            RunId = resumed?.RunId ?? NewRun, Token = (ushort)(_token + 1 + _stretches * 2), Device = "simulated",
            AwaitsStart = world.Job.IsAttended && layer is null, GoesOnAtWaits = !world.Job.IsAttended,
            Until = world.Job.LayerAfter(resumed?.Course.Start.Records ?? 0)?.Record, LayerBegun = layer,
            ProgressInterval = TimeSpan.FromMilliseconds(50), HeldPatience = TimeSpan.FromSeconds(20),
        };
        var file = new FileJournal(world.Disk, journal); // closed by a host that lives, and only by that
        RunController run = null!;
        run = new RunController(world.Job.Job, settings, new WatchedJournal(world, file), new Onlooker(world, () => run), resumed);
        ended?.HandOver(run.Request);
        world.Operator.Attend(run);
        var running = RunLoop.RunAsync(run, line, world);
        Fail.If(!running.IsCompleted, $"the run waits for something else than its line");
        var end = running.GetAwaiter().GetResult();
        file.Dispose();
        world.Tell($"{end.Outcome}: {end.Words}");
        world.Outcomes.Add(end.Outcome);
        return (run, end);
    }

    private bool Judge(RunController run, RunEnd end)
    {
        Fail.If(end.Words.Contains("did not take records", StringComparison.Ordinal), $"the board refused records that were sent in order: {end.Words}");
        Fail.If(world.IsQuiet && end.Outcome is RunOutcome.Refused or RunOutcome.NoAnswer or RunOutcome.LineLost or RunOutcome.JournalFailed,
            $"nothing went wrong, and the run ends {end.Outcome}: {end.Words}");
        if (end.Outcome is RunOutcome.Stopped or RunOutcome.Aborted or RunOutcome.HeldTooLong or RunOutcome.Complete)
            world.MustRest();
        if (end.Outcome != RunOutcome.Complete)
            return false;
        Fail.If(world.Watch.Truth != world.Job.InOrder.Count,
            $"the run is called complete, and {world.Watch.Truth} of {world.Job.InOrder.Count} cells are worked");
        var differences = run.Worked.CountDifferences(world.Watch.Workings.Known);
        Fail.If(differences > 0, $"what the run knows to be worked differs in {differences} cells from what it was told to work");
        return true;
    }

    private sealed class Onlooker(World world, Func<RunController> run) : IRunWatcher
    {
        public void StateChanged(RunProgress progress)
        {
            Tell($"{progress.State} {progress.Cause}");
            if (world.Plant == Plant.GoesOnByItself && progress.State == MachineState.Held)
                run().Request(MachineCommand.Unhold);
        }

        public void Progressed(RunProgress progress)
        {
        }

        public void Told(string words) => Tell(words);

        private void Tell(string what)
        {
            if (world.Story is not null)
                world.Tell($"host: {what}");
        }
    }
}
