using System.CommandLine;
using System.CommandLine.Parsing;
using Bridge.Mock;

namespace Bridge.Cli;

/// <summary>bridge run: a proved job is executed by a device.</summary>
internal static class RunCommand
{
    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var machine = Arguments.Machine();
        var device = Arguments.Device("What executes the job");
        var fast = Arguments.Flag("--fast", "On the mock device: let time pass at once.");
        var unattended = Arguments.Flag("--unattended",
            "Nobody is there to press keys: a machine that holds is stopped after 10 s. A board runs without a terminal only with this.");
        var endHeld = Arguments.Flag("--end-held",
            "If the board still holds an earlier run, such as one that lost its line: end that one and run this job from its beginning.");
        var runs = Arguments.Runs();
        var faults = Arguments.Faults();
        var seed = Arguments.Seed();
        var raw = Arguments.Raw();
        var command = new ExampleCommand("run", "Prove a job once more and have a device execute it, with a record of everything.",
            "bridge run kite.job --machine examples/machines/cardboard-plotter.toml --fast",
            "bridge run kite.job --machine examples/machines/cardboard-plotter.toml --fast --faults drop=0.05 --seed 7",
            "bridge run kite.job --machine my-plotter.toml --device /dev/ttyACM0")
        {
            job, machine, device, fast, unattended, endHeld, runs, faults, seed, raw,
        };
        command.Validators.Add(parsed => RefuseMockOptions(parsed, device, fast, faults, seed));
        command.SetAction((parsed, _) => JobRun.ExecuteAsync(report, new RunOptions(
            parsed.GetRequiredValue(job), parsed.GetRequiredValue(machine), parsed.GetRequiredValue(device), parsed.GetValue(fast),
            parsed.GetRequiredValue(runs), parsed.GetValue(faults) ?? MockFaults.None, parsed.GetValue(seed), parsed.GetValue(raw),
            parsed.GetValue(unattended), parsed.GetValue(endHeld))));
        return command;
    }

    // A board's time, faults and chances are its own.
    private static void RefuseMockOptions(CommandResult parsed, Option<string> device, params Option[] ofMock)
    {
        if (parsed.GetResult(device) is not { Tokens: [{ Value: var named }] } || named == Device.MockName)
            return;
        foreach (var option in ofMock)
            if (parsed.GetResult(option) is { Implicit: false })
                parsed.AddError($"{option.Name}: found --device {named}; allowed: only with the mock device. Leave {option.Name} out.");
    }
}

/// <summary>What bridge run was told.</summary>
internal sealed record RunOptions(
    string Job, string Machine, string Device, bool Fast, string Runs, MockFaults Faults, int Seed, bool Raw, bool Unattended, bool EndHeld);
