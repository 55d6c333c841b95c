using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>One run that is gone on with: reads its folder, looks at the device, settles what is in doubt, and runs to the end.</summary>
internal static class ResumedRun
{
    /// <summary>Goes on to the end and tells how it ended by the exit code.</summary>
    /// <param name="report">Where it is told.</param>
    /// <param name="path">The run's folder.</param>
    /// <param name="options">On what, and how; its job and machine are the folder's.</param>
    /// <param name="inDoubt">What to do with what is in doubt; null to be asked.</param>
    /// <exception cref="RefusedException">The folder is no run's, or the run cannot be gone on with.</exception>
    public static async Task<int> ExecuteAsync(Report report, string path, RunOptions options, InDoubt? inDoubt)
    {
        var stopped = StoppedRun.Read(path);
        if (stopped.History.Outcome == RunOutcome.Complete)
            throw NothingLeft(path);
        JobRun.RefuseUnwatchedBoard(report, options.Device, options.Unattended);
        foreach (var line in Caution.Lines)
            report.Line(line);
        IReadOnlyList<LayerChange> changes = [.. LayerChange.Of(stopped.Job)];
        LostStepsMeasuring.Announce(report, options, [.. changes.Where(change => change.Record > stopped.History.Known.Records)]);
        var before = options.Before with { Runs = Path.GetDirectoryName(Path.GetFullPath(path)) ?? options.Runs };
        var looked = before.Ask(report, stopped.Job.Machine);
        using var station = options.Station?.Open(report);
        using var device = await DeviceOpening.OpenAsync(report, options, stopped.Job.Machine).ConfigureAwait(false);
        var token = SessionToken.New();
        if (device is null || await LookAsync(report, device, stopped.Job.Machine, token).ConfigureAwait(false) is not { Status: { } status } dialogue)
            return ExitCode.Device;
        var tried = looked is null ? null : await before.TryEStopAsync(report, dialogue, looked).ConfigureAwait(false);
        if (looked is not null && tried is null)
            return ExitCode.Device;
        var point = ResumePoint.Of(stopped.History, stopped.Job, status);
        if (point is ResumePoint.OnDevice) // to try the e-stop ends what a device has
            point = ResumePoint.Of(stopped.History, stopped.Job, dialogue.Status!.Value);
        if (point is ResumePoint.Busy busy)
        {
            report.Problem($"Refused: {options.Device}: {busy.End.Words} {busy.End.WhatToDo}");
            return ExitCode.Device;
        }

        var resumed = Settle(report, stopped, point, inDoubt);
        if (options.MeasuresLayers && resumed is { SentBefore: not null, Until: null })
            report.Line("The device has the rest of the job: lost steps are measured at no change of layer any more.");
        if (!options.MeasuresLayers && resumed.Until is { } until)
            report.Line($"The device was told to stop before layer {changes.Single(change => change.Record == until).Layer}, "
                + "where the machine was to reference. Without --lost-steps layers it does not: THIS RUN ENDS THERE, and is gone on with by another --resume.");
        var screen = new RunScreen(report, stopped.Job.Proof.Layers, Countdown.Of(stopped.Job.Job.Image, stopped.Job.Machine));
        using var operating = new OperatorInput(report, TimeProvider.System);
        using var collector = Collector.OfEnvironment();
        var began = TimeProvider.System.GetUtcNow();
        var telemetry = new RunTelemetry(stopped.Job.Machine.Name, device.Name, began, screen);
        var session = RunSession.GoOn(
            stopped, resumed, JobRun.SettingsOf(report, options, device, token) with
            {
                Until = Stretches.Until(changes, options.MeasuresLayers, resumed.Course.Start.Records),
            },
            new Watchers(telemetry, station), device.Time, began);
        using var run = new Stretches(session, changes, options.MeasuresLayers);
        tried?.Save(session.Folder.Path);
        station?.Operate(operating.Request);
        return await JobRun.ToEndAsync(report, screen, telemetry, run, operating, device, stopped.Job.Machine, LostStepsMeasuring.ChoiceOf(report, options))
            .ConfigureAwait(false);
    }

    // A machine in motion holds when it is looked at.
    private static async Task<DeviceDialogue?> LookAsync(Report report, Device device, Machine machine, ushort token)
    {
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var welcome = await dialogue.OpenAsync(token).ConfigureAwait(false);
        var status = welcome is null ? null : await dialogue.RestAsync(machine.TimeOuts.Answer + machine.TimeOuts.Reference).ConfigureAwait(false);
        if (status is null)
            report.Problem($"{dialogue.Trouble} Nothing was started.");
        return status is null ? null : dialogue;
    }

    private static Resumption Settle(Report report, StoppedRun stopped, ResumePoint point, InDoubt? inDoubt)
    {
        switch (point)
        {
            case ResumePoint.OnDevice:
                report.Line("The device has the run still, and nothing is in doubt: it goes on at the next cell.");
                return Resumption.OnDevice(stopped.History);
            case ResumePoint.AfterRestart restart:
                RefuseToDescend(stopped, restart);
                report.Line($"The device has to find its zero again and is led back: {restart.Known.Records} of {stopped.Job.RecordsToSend} records "
                    + $"and {Counted.Of(restart.Known.Cells, "cell")} of the next are known to be done.");
                var from = From(report, stopped, restart, inDoubt);
                return from.Records < stopped.Job.RecordsToSend
                    ? Resumption.AfterRestart(stopped.History, stopped.Job, restart, from, RunNumber.New())
                    : throw NothingLeft(stopped.Folder.Path); // the last cells were in doubt, and are left as they are
            case ResumePoint.Complete:
                throw NothingLeft(stopped.Folder.Path);
            default:
                throw new UnreachableException();
        }
    }

    private static RefusedException NothingLeft(string path) => new(path, "a run that is complete: every record is executed", "one that was stopped or cut off",
        "Nothing is left to do. To make it once more, run the job.");

    private static JobPlace From(Report report, StoppedRun stopped, ResumePoint.AfterRestart restart, InDoubt? inDoubt)
    {
        if (restart.Doubt is not { } doubt)
            return restart.Known;
        var words = DoubtWords.Of(doubt, stopped.Job.Job.Image.Width);
        report.Line(words);
        var choice = inDoubt ?? (report.IsAttended ? Ask(report) : null) ?? throw new RefusedException(stopped.Folder.Path, "work in doubt",
            "--in-doubt redo or --in-doubt skip", "Look at the work, then say whether the cells in doubt are worked again or left as they are.");
        report.Line(choice == InDoubt.Redo ? "The cells in doubt are worked again." : "The cells in doubt are left as they are.");
        return choice == InDoubt.Redo ? doubt.Redo : doubt.Skip;
    }

    private static InDoubt? Ask(Report report)
    {
        report.Line("Look at the work. R works the cells in doubt again, L leaves them as they are; any other key starts nothing.");
        return Console.ReadKey(intercept: true).Key switch { ConsoleKey.R => InDoubt.Redo, ConsoleKey.L => InDoubt.Skip, _ => null };
    }

    private static void RefuseToDescend(StoppedRun stopped, ResumePoint.AfterRestart restart)
    {
        if (DescentCheck.FirstInTheWay(stopped, restart) is { } inTheWay)
            throw new RefusedException(stopped.Folder.Path,
                $"a cell that is built, or may be, at {inTheWay.Cell} on layer {inTheWay.Layer}, where the head comes down to find its zero",
                "nothing built on that way, nor in doubt", "Take the work off and run the job from its beginning.");
    }
}
