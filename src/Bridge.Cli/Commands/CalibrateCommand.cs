using System.CommandLine;
using System.Globalization;
using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>bridge calibrate: new values of a machine file out of what a person measured.</summary>
internal static class CalibrateCommand
{
    public static Command Make(Report report) => new("calibrate", "Work out new values of a machine file from what you measured, with their uncertainty.")
    {
        Pattern(report), Scale(report), Backlash(report), Square(report), Heads(report), Repeat(report),
    };

    private static ExampleCommand Pattern(Report report)
    {
        var machine = Arguments.Machine();
        var output = Arguments.File("--out", "JOB", "Where to write the job.");
        output.Required = true;
        var command = new ExampleCommand("pattern",
            "A job to measure on: long lines along X and Y, the ends of both diagonals, and lines that both heads share.",
            "bridge calibrate pattern --machine my-plotter.toml --out pattern.job")
        {
            machine, output,
        };
        command.SetAction(parsed =>
        {
            var (on, to) = (parsed.GetRequiredValue(machine), parsed.GetRequiredValue(output)!);
            var files = new OutputFiles([on], ("--out", to));
            var job = PatternWords.Prove(MachineInput.Read(on, out _));
            files.Write(job.Job.ToBytes());
            report.Line($"Job: {to}, {Counted.Of(job.Job.Image.Count, "record")}. Run it, then measure:");
            foreach (var line in PatternWords.Of(job.Machine))
                report.Line(line);
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand Scale(Report report)
    {
        var (machine, axis, ruler, yes) = (Arguments.Machine(), Axis(), Ruler(), Yes());
        var told = Length("--told", "The way that the machine was told to go, in mm.");
        var measured = Readings("--measured", "What it really was, in mm; several readings if you took them.");
        var command = new ExampleCommand("scale", "Steps for a mm, from a way that was told and measured.",
            "bridge calibrate scale --machine my-plotter.toml --axis x --told 60 --measured 59.4 59.5 59.4 --ruler 0.5")
        {
            machine, axis, told, measured, ruler, yes,
        };
        command.SetAction((parsed, _) => OfferAsync(report, parsed.GetRequiredValue(machine), parsed.GetValue(yes), file => [
            Calibrations.Scale(file, parsed.GetValue(axis), parsed.GetValue(told),
                Measured.Of("--measured", parsed.GetRequiredValue(measured), parsed.GetValue(ruler))),
        ]));
        return command;
    }

    private static ExampleCommand Backlash(Report report)
    {
        var (machine, axis, ruler, yes) = (Arguments.Machine(), Axis(), Ruler(), Yes());
        var below = Readings("--from-below", "Where it stood at a cell after coming from a lower one, in mm on any scale.");
        var above = Readings("--from-above", "Where it stood at the same cell after coming from a higher one, on the same scale.");
        var command = new ExampleCommand("backlash", "The play of an axis, from readings at one cell that was come to from both sides.",
            "bridge calibrate backlash --machine my-plotter.toml --axis y --from-below 30.1 30.1 --from-above 30.3 30.2 --ruler 0.1")
        {
            machine, axis, below, above, ruler, yes,
        };
        command.SetAction((parsed, _) => OfferAsync(report, parsed.GetRequiredValue(machine), parsed.GetValue(yes), file => [
            Calibrations.Backlash(file, parsed.GetValue(axis),
                Measured.Of("--from-below", parsed.GetRequiredValue(below), parsed.GetValue(ruler)),
                Measured.Of("--from-above", parsed.GetRequiredValue(above), parsed.GetValue(ruler))),
        ]));
        return command;
    }

    private static ExampleCommand Square(Report report)
    {
        var ruler = Ruler();
        var sideX = Length("--side-x", "The side along X that was told, in mm.");
        var sideY = Length("--side-y", "The side along Y that was told, in mm.");
        var rising = Readings("--rising", "The diagonal from the corner at (0, 0) to the far one, in mm.");
        var falling = Readings("--falling", "The other diagonal, in mm.");
        var command = new ExampleCommand("square", "The angle between X and Y, from the two diagonals of a rectangle that was drawn or gone along.",
            "bridge calibrate square --side-x 60 --side-y 60 --rising 85.1 --falling 84.6 --ruler 0.5")
        {
            sideX, sideY, rising, falling, ruler,
        };
        command.SetAction(parsed =>
        {
            var square = Squareness.Of(parsed.GetValue(sideX), parsed.GetValue(sideY),
                Measured.Of("--rising", parsed.GetRequiredValue(rising), parsed.GetValue(ruler)),
                Measured.Of("--falling", parsed.GetRequiredValue(falling), parsed.GetValue(ruler)));
            SquarenessWords.Tell(report, square);
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand Heads(Report report)
    {
        var (machine, ruler, yes) = (Arguments.Machine(), Ruler(), Yes());
        var x = Readings("--x", "How far head b's mark lies from head a's at the same cell along X, in mm; below 0 towards cell 0.");
        var y = Readings("--y", "The same along Y.");
        var command = new ExampleCommand("heads", "Where head b is, from how far its mark lies from that of head a at the same cell.",
            "bridge calibrate heads --machine my-plotter.toml --x 0.4 --y -0.2 --ruler 0.1")
        {
            machine, x, y, ruler, yes,
        };
        command.SetAction((parsed, _) => OfferAsync(report, parsed.GetRequiredValue(machine), parsed.GetValue(yes), file =>
        {
            var division = parsed.GetValue(ruler);
            var (alongX, alongY) = Calibrations.HeadOffset(file,
                Measured.Of("--x", parsed.GetRequiredValue(x), division), Measured.Of("--y", parsed.GetRequiredValue(y), division));
            return [alongX, alongY];
        }));
        return command;
    }

    private static ExampleCommand Repeat(Report report)
    {
        var (machine, axis, yes) = (Arguments.MaybeMachine(), Axis(), Yes());
        axis.Required = false;
        var readings = Readings("--readings", "Where it stood after each reference, on one scale, in mm; bridge reference --times tells it.");
        var command = new ExampleCommand("repeat",
            "How well a reference is found again, from readings after several of them; with --machine and --axis it is kept.",
            "bridge calibrate repeat --readings 0.02 -0.01 0 0.01 0.01",
            "bridge calibrate repeat --machine my-plotter.toml --axis x --readings 0.02 -0.01 0 0.01 0.01")
        {
            machine, axis, readings, yes,
        };
        command.Demand(parsed =>
        {
            if ((parsed.GetResult(machine) is null) != (parsed.GetResult(axis) is null))
                parsed.AddError("--machine, --axis: found one of them; allowed: both, to keep what is found, or none.");
            if (parsed.GetValue(yes) && parsed.GetResult(machine) is null)
                parsed.AddError("--yes: found without --machine; allowed: beside it.");
        });
        command.SetAction(async (parsed, _) =>
        {
            var found = Spread.Of(parsed.GetRequiredValue(readings));
            report.Line(SpreadWords.Of(found, " mm"));
            return parsed.GetValue(machine) is { } file
                ? await OfferAsync(report, file, parsed.GetValue(yes), known => Calibrations.Repeat(known, parsed.GetValue(axis), found)).ConfigureAwait(false)
                : ExitCode.Done;
        });
        return command;
    }

    private static async Task<int> OfferAsync(Report report, string path, bool isYes, Func<Machine, IReadOnlyList<Calibrated>> find)
    {
        var change = new MachineChange(report, path);
        await change.OfferAsync(find(MachineInput.Read(path, out _)), () => Task.FromResult(isYes || IsYes(report, path))).ConfigureAwait(false);
        return ExitCode.Done;
    }

    private static bool IsYes(Report report, string path)
    {
        if (!report.IsAttended)
            return false;
        report.Line($"Change {path}? (yes or no)");
        return Console.ReadLine()?.Trim().ToLowerInvariant() is "y" or "yes";
    }

    private static Option<AxisName> Axis() => new("--axis")
    {
        Description = "Which axis.",
        HelpName = "x|y|z",
        Required = true,
        CustomParser = written => Arguments.Word(written) switch
        {
            "x" => AxisName.X,
            "y" => AxisName.Y,
            "z" => AxisName.Z,
            _ => Arguments.Refuse<AxisName>(written, "x, y or z"),
        },
    };

    private static Option<double> Ruler() => new("--ruler")
    {
        Description = "The smallest division that you read, in mm: 1, or 0.5 where you judged halves.",
        HelpName = "MM",
        DefaultValueFactory = _ => 0.5,
        CustomParser = written => Number(Arguments.Word(written)) is { } mm and > 0 ? mm : Arguments.Refuse<double>(written, "a length above 0"),
    };

    private static Option<double> Length(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "MM",
        Required = true,
        CustomParser = written => Number(Arguments.Word(written)) ?? Arguments.Refuse<double>(written, "a length in mm"),
    };

    private static Option<double[]> Readings(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "MM...",
        Required = true,
        AllowMultipleArgumentsPerToken = true,
        CustomParser = written =>
        {
            var numbers = written.Tokens.Select(token => Number(token.Value)).ToArray();
            if (numbers.All(number => number is not null))
                return [.. numbers.Select(number => number!.Value)];
            written.AddError($"{name}: found {string.Join(' ', written.Tokens)}; allowed: numbers.");
            return [];
        },
    };

    private static Option<bool> Yes() => Arguments.Flag("--yes", "Write the new values without asking.");

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : null;
}
