using System.CommandLine;
using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>bridge setup: a machine's first day, led through in the order that is safe.</summary>
internal static class SetupCommand
{
    public static Command Make(Report report)
    {
        var hand = new HandArguments("What is set up");
        var from = Arguments.File("--from", "FILE", "A machine file to begin with, such as one of examples/machines, where --machine names none yet.");
        var again = new Option<string?>("--again")
        {
            Description = $"Do a step that is done once more: {string.Join(", ", SetupSteps.Names)}.",
            HelpName = "STEP",
        };
        again.Validators.Add(written =>
        {
            if (written.Tokens is [{ Value: var step }] && !SetupSteps.Names.Contains(step))
                written.AddError($"--again: found {step}; allowed: {string.Join(", ", SetupSteps.Names)}.");
        });
        var command = new ExampleCommand("setup",
            "Go through a machine's contacts, directions, references and measures, step by step. It may be left and gone on with.",
            "bridge setup --machine my-plotter.toml --from examples/machines/cardboard-plotter.toml --device /dev/ttyACM0",
            "bridge setup --machine my-plotter.toml --device /dev/ttyACM0 --again scale")
        {
            from, again,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) => SetUpAsync(report, hand.Read(parsed), parsed.GetValue(from), parsed.GetValue(again)));
        return command;
    }

    private static async Task<int> SetUpAsync(Report report, HandOptions options, string? from, string? again)
    {
        if (!report.IsAttended || options.Unattended)
            throw new RefusedException("setup", "nobody at a terminal", "a person who looks, answers and holds keys", "Run it from a terminal.");
        Begin(report, options.Machine, from);
        var isMock = options.Device == Device.MockName;
        var progress = isMock ? SetupProgress.None : SetupProgress.Of(options.Machine);
        return await HandSession.RunAsync(report, options, moves: true,
            (hand, device) => new Setup(report, options.Machine, isMock, hand, device, progress).RunAsync(again), isLive: true).ConfigureAwait(false);
    }

    private static void Begin(Report report, string path, string? from)
    {
        if (File.Exists(path))
            return;
        if (from is null)
            throw new RefusedException($"--machine {path}", "no such file", "a machine file",
                "Name one to begin with: --from examples/machines/cardboard-plotter.toml.");
        MachineInput.Read(from, out var bytes);
        new OutputFiles([from], ("--machine", path)).Write(bytes);
        report.Line($"Copied {from} to {path}. Open it in an editor first: "
            + "cells, pitch_mm, steps_per_mm, speeds, and the end where each endstop is, have to be your machine's.");
    }
}
