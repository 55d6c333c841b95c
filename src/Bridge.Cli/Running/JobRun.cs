using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>One run from a job to an exit code: proves, opens the device, runs with a screen and keys, and tells how it ended.</summary>
internal static class JobRun
{
    // A machine that holds and has nobody at a terminal to let it go on is stopped after this.
    private static readonly TimeSpan PatienceWithNobodyThere = TimeSpan.FromSeconds(10);

    /// <summary>Runs to the end and tells how it ended by the exit code.</summary>
    /// <param name="report">Where it is told.</param>
    /// <param name="options">What to run, on what.</param>
    /// <param name="planned">The job, where it was just planned; else it is read.</param>
    /// <exception cref="RefusedException">A file is not good, the job is not proved, or nobody watches a board.</exception>
    public static async Task<int> ExecuteAsync(Report report, RunOptions options, JobFile? planned = null)
    {
        var machine = MachineInput.Read(options.Machine, out var machineBytes);
        var job = ProvedJob.Of(planned ?? JobInput.Read(options.Job, options.Raw, machine), machine);
        RefuseUnwatchedBoard(report, options.Device, options.Unattended);
        foreach (var line in Caution.Lines)
            report.Line(line);
        IReadOnlyList<LayerChange> changes = [.. LayerChange.Of(job)];
        LostStepsMeasuring.Announce(report, options, changes);
        var looked = options.Before.Ask(report, machine);
        using var station = options.Station?.Open(report);
        using var device = await DeviceOpening.OpenAsync(report, options, machine).ConfigureAwait(false);
        if (device is null)
            return ExitCode.Device;
        var token = SessionToken.New();
        var tried = looked is null ? null : await options.Before.TryEStopAsync(report, device, machine, looked, token).ConfigureAwait(false);
        if (looked is not null && tried is null)
            return ExitCode.Device;
        var screen = new RunScreen(report, job.Proof.Layers, Countdown.Of(job.Job.Image, machine));
        using var operating = new OperatorInput(report, TimeProvider.System);
        using var collector = Collector.OfEnvironment();
        var began = TimeProvider.System.GetUtcNow();
        var telemetry = new RunTelemetry(machine.Name, device.Name, began, screen);
        var session = RunSession.Create(
            new RunRequest(Path.GetFileName(options.Job), job.Job.ToBytes(), options.Machine, machineBytes, options.Runs,
                SettingsOf(report, options, device, token) with { Until = Stretches.Until(changes, options.MeasuresLayers, begins: 0) },
                device.Mock is { } mock ? told => MockTruth.Differing(mock, told, machine.Grid) : null),
            new Watchers(telemetry, station), device.Time, began);
        using var run = new Stretches(session, changes, options.MeasuresLayers);
        tried?.Save(session.Folder.Path);
        station?.Operate(operating.Request);
        return await ToEndAsync(report, screen, telemetry, run, operating, device, machine, LostStepsMeasuring.ChoiceOf(report, options))
            .ConfigureAwait(false);
    }

    /// <summary>Runs what is ready to its end, under the operator's hand, has lost steps measured where that is wanted, and tells how it ended.</summary>
    public static async Task<int> ToEndAsync(
        Report report, RunScreen screen, RunTelemetry telemetry, Stretches run, OperatorInput operating, Device device, Machine machine,
        LostStepsChoice lostSteps)
    {
        report.GoOnWithoutOutput();
        operating.Operate(run.Session.Controller);
        var measuring = new LostStepsMeasuring(report, lostSteps, operating, device, machine);
        var end = await screen.ShowAsync(() => run.RunAsync(device.Line, measuring.FindAsync)).ConfigureAwait(false);
        telemetry.Ended(run.Session.Summary!, run.Session.TookInAll);
        Tell(report, end, run.Session);
        return CodeOf(end.Outcome);
    }

    /// <summary>Refuses a board that nobody watches, unless that is asked for.</summary>
    public static void RefuseUnwatchedBoard(Report report, string device, bool isUnattended)
    {
        if (device == Device.MockName)
            return;
        if (!isUnattended && !report.IsAttended)
            throw new RefusedException($"--device {device}", "nobody at a terminal", "a run that somebody watches, with keys to stop it",
                "Run it from a terminal, or say --unattended and have somebody stand by the e-stop all the same.");
        if (isUnattended)
            report.Line("Unattended: no key is needed, and where the machine holds or the job waits for its operator, the run is stopped after "
                + $"{PatienceWithNobodyThere.TotalSeconds:0} s. This is no leave to go away: somebody stays by the e-stop.");
    }

    /// <summary>What a run is told beside its job.</summary>
    public static RunSettings SettingsOf(Report report, RunOptions options, Device device, ushort tokenBefore)
    {
        var (isAttended, isAtStation) = (report.IsAttended && !options.Unattended, options.Station is not null);
        if (isAttended && !options.Fast)
            report.Line(OperatorInput.Keys);
        return new RunSettings
        {
            RunId = RunNumber.New(),
            Token = SessionToken.After(tokenBefore),
            Device = device.Name,

            // On the mock device nothing has to be done at a wait; at a board there may be.
            GoesOnAtWaits = device.Mock is not null && !isAtStation && (options.Fast || !isAttended),
            AwaitsStart = isAtStation,
            EndsHeldRun = options.EndHeld,
            HeldPatience = isAtStation || (isAttended && !options.Fast) ? null : PatienceWithNobodyThere,
        };
    }

    private static void Tell(Report report, RunEnd end, RunSession session)
    {
        report.Line($"{end.Outcome}: {end.Words}");
        if (end.WhatToDo.Length > 0)
            report.Line(end.WhatToDo);
        if (session.Summary?.CellsNotAsTold is > 0 and var cells)
            report.Line($"What the mock's gantry really worked differs from this record in {Counted.Of(cells, "cell")}: "
                + "its motors skipped steps, or it went on while nothing was heard of it.");
        report.Line($"Run folder: {session.Folder.Path}");
        if (session.Seal is { } seal)
            report.Line($"Seal: {seal}");
    }

    /// <summary>How a run ended, as an exit code.</summary>
    public static int CodeOf(RunOutcome outcome) => outcome switch
    {
        RunOutcome.Complete => ExitCode.Done,
        RunOutcome.Stopped or RunOutcome.HeldTooLong or RunOutcome.LayerDone => ExitCode.Stopped,
        RunOutcome.Aborted => ExitCode.Aborted,
        RunOutcome.JournalFailed => ExitCode.Journal,
        _ => ExitCode.Device,
    };
}
