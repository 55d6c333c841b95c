using System.CommandLine;
using System.CommandLine.Parsing;
using System.Device.Gpio;
using Bridge.Mock;
using Bridge.Runs;
using Bridge.Station;

namespace Bridge.Cli;

/// <summary>bridge run: a proved job is executed by a device.</summary>
internal static class RunCommand
{
    public static Command Make(Report report, Func<StationWiring, GpioController> pins)
    {
        var job = Arguments.Job();
        job.Arity = ArgumentArity.ZeroOrOne;
        var machine = Arguments.MaybeMachine();
        var device = Arguments.Device("What executes the job");
        var fast = Arguments.Flag("--fast", "On the mock device: let time pass at once.");
        var unattended = Arguments.Flag("--unattended",
            "Nobody is there to press keys: a machine that holds is stopped after 10 s. A board runs without a terminal only with this.");
        var endHeld = Arguments.Flag("--end-held",
            "If the board still holds an earlier run, such as one that lost its line: end that one and run this job from its beginning.");
        var resume = Arguments.File("--resume", "RUN", "Go on with a run that was stopped or cut off, by its folder, instead of beginning a JOB.");
        var inDoubt = InDoubtOption();
        var lostSteps = LostStepsOption();
        var runs = Arguments.Runs();
        var faults = Arguments.Faults();
        var checklist = Arguments.Checklist();
        var station = Arguments.File("--station", "FILE", "Contacts, lamps and display on this computer's pins, by a station file (safety/STATION.md): "
            + "the run is started at its start button, and its contacts hold and stop it.");
        var seed = Arguments.Seed();
        var raw = Arguments.Raw();
        var command = new ExampleCommand("run", "Prove a job once more and have a device execute it, with a record of everything.",
            "bridge run kite.job --machine examples/machines/cardboard-plotter.toml --fast",
            "bridge run kite.job --machine examples/machines/cardboard-plotter.toml --fast --faults drop=0.05 --seed 7",
            "bridge run kite.job --machine my-plotter.toml --device /dev/ttyACM0",
            "bridge run --resume runs/2026-05-04T16-20-00Z-kite --device /dev/ttyACM0")
        {
            job, machine, device, fast, unattended, endHeld, resume, inDoubt, lostSteps, runs, checklist, station, faults, seed, raw,
        };
        command.Demand(parsed => RefuseMixtures(parsed, job, machine, resume, inDoubt, runs, endHeld, raw));
        command.Demand(parsed => RefuseAtStation(parsed, station, fast, unattended));
        command.Demand(parsed => RefuseMockOptions(parsed, device, fast, faults, seed));
        command.SetAction((parsed, _) =>
        {
            var options = new RunOptions(
                parsed.GetValue(job) ?? "", parsed.GetValue(machine) ?? "", parsed.GetRequiredValue(device), parsed.GetValue(fast),
                parsed.GetRequiredValue(runs), parsed.GetValue(faults) ?? MockFaults.None, parsed.GetValue(seed), parsed.GetValue(raw),
                parsed.GetValue(unattended), parsed.GetValue(endHeld), parsed.GetValue(checklist),
                parsed.GetValue(station) is { } file ? new StationChoice(file, pins) : null, parsed.GetValue(lostSteps));
            return parsed.GetValue(resume) is { } stopped
                ? ResumedRun.ExecuteAsync(report, stopped, options, parsed.GetValue(inDoubt))
                : JobRun.ExecuteAsync(report, options);
        });
        return command;
    }

    private static Option<LostStepsChoice> LostStepsOption() => new("--lost-steps")
    {
        Description = "After a complete run have the machine MOVE once more, to reference and tell how many steps it lost (measure); at each change of "
            + "layer too, where the head's way down to its zero is free (layers); or not (skip). "
            + "If not given, whoever is at the terminal is asked, and where nobody is a board does not move.",
        HelpName = "measure|layers|skip",
        CustomParser = written => Arguments.Word(written) switch
        {
            "measure" => LostStepsChoice.Measure,
            "layers" => LostStepsChoice.Layers,
            "skip" => LostStepsChoice.Skip,
            _ => Arguments.Refuse<LostStepsChoice>(written, "measure, layers or skip"),
        },
    };

    private static Option<InDoubt?> InDoubtOption()
    {
        var inDoubt = new Option<InDoubt?>("--in-doubt")
        {
            Description = "With --resume, where it is not known whether some cells were worked: redo works them again, skip leaves them as they are. "
                + "Records after theirs that had been sent are executed in either case.",
            HelpName = "redo|skip",
            CustomParser = written => written.Tokens switch
            {
                [{ Value: "redo" }] => InDoubt.Redo,
                [{ Value: "skip" }] => InDoubt.Skip,
                _ => Refused(written),
            },
        };
        return inDoubt;

        static InDoubt? Refused(ArgumentResult written)
        {
            written.AddError($"--in-doubt: found {string.Join(' ', written.Tokens)}; allowed: redo or skip.");
            return null;
        }
    }

    // What is gone on with has its job, machine and folder already.
    private static void RefuseMixtures(
        CommandResult parsed, Argument<string> job, Option<string> machine, Option<string> resume, Option inDoubt, params Option[] ofNew)
    {
        if (parsed.GetResult(resume) is null)
        {
            if (parsed.GetResult(job) is not { Tokens.Count: > 0 })
                parsed.AddError("JOB: found nothing; allowed: the job to run, or --resume with the folder of a run.");
            if (parsed.GetResult(machine) is null)
                parsed.AddError("--machine: found nothing; allowed: the machine file that the job was planned with.");
            if (parsed.GetResult(inDoubt) is not null)
                parsed.AddError("--in-doubt: found without --resume; allowed: beside it. Leave --in-doubt out, or add --resume.");
            return;
        }

        if (parsed.GetResult(job) is { Tokens.Count: > 0 })
            parsed.AddError("JOB: found beside --resume; allowed: one of them. The run's folder has its job.");
        foreach (var option in ofNew.Prepend(machine))
            if (parsed.GetResult(option) is { Implicit: false })
                parsed.AddError($"{option.Name}: found beside --resume; allowed: one of them. Leave {option.Name} out.");
    }

    // At a station somebody stands, in real time.
    private static void RefuseAtStation(CommandResult parsed, Option<string> station, params Option[] others)
    {
        if (parsed.GetResult(station) is null)
            return;
        foreach (var option in others)
            if (parsed.GetResult(option) is { Implicit: false })
                parsed.AddError($"{option.Name}: found beside --station; allowed: one of them. Leave {option.Name} out.");
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
    string Job, string Machine, string Device, bool Fast, string Runs, MockFaults Faults, int Seed, bool Raw, bool Unattended, bool EndHeld,
    string? Checklist = null, StationChoice? Station = null, LostStepsChoice LostSteps = LostStepsChoice.Ask)
{
    /// <summary>What comes before motion.</summary>
    public PreRun Before => new(Device, Runs, Checklist, Unattended);

    /// <summary>Whether the machine finds its zero anew at each change of layer.</summary>
    public bool MeasuresLayers => LostSteps == LostStepsChoice.Layers;
}
