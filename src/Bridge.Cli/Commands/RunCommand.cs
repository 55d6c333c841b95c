using System.CommandLine;
using System.Security.Cryptography;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge run: a proved job is executed by a device.</summary>
internal static class RunCommand
{
    // A machine that holds and has nobody at a terminal to let it go on is stopped after this.
    private static readonly TimeSpan PatienceWithNobodyThere = TimeSpan.FromSeconds(10);

    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var machine = Arguments.Machine();
        var device = new Option<string>("--device") { Description = "What executes the job: mock, a whole machine in software.", HelpName = "DEVICE", DefaultValueFactory = _ => Device.MockName };
        var fast = new Option<bool>("--fast") { Description = "On the mock device: let time pass at once." };
        var runs = new Option<string>("--runs") { Description = "Where the run's folder is made.", HelpName = "DIR", DefaultValueFactory = _ => "runs" };
        var faults = new Option<string>("--faults")
        {
            Description = $"On the mock device: what goes wrong, such as drop=0.01,estop-at=20. Known: {string.Join(", ", FaultText.Known)}.",
            HelpName = "LIST",
            DefaultValueFactory = _ => "",
        };
        var seed = new Option<int>("--seed") { Description = "On the mock device: decides all that is left to chance.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var raw = Arguments.Raw();
        var command = new Command("run", "Prove a job once more and have a device execute it, with a record of everything.")
        {
            job, machine, device, fast, runs, faults, seed, raw,
        };
        command.SetAction((parsed, _) => RunAsync(report, new RunOptions(
            parsed.GetRequiredValue(job), parsed.GetRequiredValue(machine), parsed.GetRequiredValue(device), parsed.GetValue(fast),
            parsed.GetRequiredValue(runs), parsed.GetRequiredValue(faults), parsed.GetValue(seed), parsed.GetValue(raw))));
        return command;
    }

    /// <summary>Runs to the end and tells how it ended by the exit code.</summary>
    public static async Task<int> RunAsync(Report report, RunOptions options)
    {
        if (options.Device != Device.MockName)
            throw new RefusedException("--device", options.Device, Device.MockName, "Leave it out, or say mock.");
        var machineBytes = InputFile.ReadAll(options.Machine, MachineFile.MaxBytes);
        var machine = MachineFile.Parse(machineBytes, options.Machine);
        var job = JobInput.Read(options.Job, options.Raw, machine);
        var isAttended = report.IsTerminal && !Console.IsInputRedirected;
        using var device = Device.OfMock(machine, options.Fast, options.Seed, MockFaults.Parse(options.Faults));
        var settings = new RunSettings
        {
            RunId = (ushort)RandomNumberGenerator.GetInt32(1, ushort.MaxValue + 1),
            Token = (ushort)RandomNumberGenerator.GetInt32(0, ushort.MaxValue + 1),
            Device = device.Name,
            GoesOnAtWaits = options.Fast || !isAttended,
            HeldPatience = isAttended && !options.Fast ? null : PatienceWithNobodyThere,
        };
        var screen = new RunScreen(report, machine.Grid.Layers, Countdown.Of(job.Image, machine));
        using var session = RunSession.Create(
            new RunRequest(Path.GetFileName(options.Job), job.ToBytes(), options.Machine, machineBytes, options.Runs, settings),
            screen, device.Time, TimeProvider.System.GetUtcNow());
        foreach (var line in Caution.Lines)
            report.Line(line);
        RunEnd end;
        using (new OperatorInput(session.Controller, report, TimeProvider.System))
            end = await screen.ShowAsync(() => session.RunAsync(device.Line)).ConfigureAwait(false);
        Tell(report, end, session, device, machine);
        return CodeOf(end.Outcome);
    }

    private static void Tell(Report report, RunEnd end, RunSession session, Device device, Machine machine)
    {
        report.Line($"{end.Outcome}: {end.Words}");
        if (end.WhatToDo.Length > 0)
            report.Line(end.WhatToDo);
        if (device.Mock is { } mock)
            TellTruth(report, mock, session, machine);
        report.Line($"Run folder: {session.Folder.Path}");
    }

    // The mock's gantry knows what was really worked; a motor that skips steps is seen nowhere else.
    private static void TellTruth(Report report, MockPort mock, RunSession session, Machine machine)
    {
        var gantry = new WorkedCells(machine.Grid);
        var outside = 0;
        foreach (var at in mock.ByHand(mocked => mocked.Gantry.Worked))
            if (machine.Grid.Holds(at.Cell) && at.Layer >= 0 && at.Layer < machine.Grid.Layers)
                gantry.Add(at.Cell, at.Layer, at.Head);
            else
                outside++;
        var differing = gantry.CountDifferences(session.Controller.Worked) + outside;
        if (differing > 0)
            report.Line($"What the mock's gantry really worked differs from this record in {differing} {(differing == 1 ? "cell" : "cells")}: its motors skipped steps, or it went on while nothing was heard of it.");
    }

    private static int CodeOf(RunOutcome outcome) => outcome switch
    {
        RunOutcome.Complete => ExitCode.Done,
        RunOutcome.Stopped or RunOutcome.HeldTooLong => ExitCode.Stopped,
        RunOutcome.Aborted => ExitCode.Aborted,
        RunOutcome.JournalFailed => ExitCode.Journal,
        _ => ExitCode.Device,
    };
}

/// <summary>What bridge run was told.</summary>
internal sealed record RunOptions(string Job, string Machine, string Device, bool Fast, string Runs, string Faults, int Seed, bool Raw);
