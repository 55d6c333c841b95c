using System.CommandLine;
using Bridge.Jobs;
using Bridge.Layouts;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge check: a job is held against a machine and, if one is given, against a shape.</summary>
internal static class CheckCommand
{
    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        job.Arity = ArgumentArity.ZeroOrOne;
        var typed = Arguments.File("--image", "FILE",
            "What somebody typed in from a sheet (bridge sheet): each wrong row is named. Beside JOB it is held against that, row by row.");
        var machine = Arguments.Machine();
        var shape = Arguments.File("--shape", "SHAPE", "The shape that the job should work, cell for cell.");
        var json = Arguments.Flag("--json", "Print the result as JSON, for a program. Nothing else is printed then.");
        var raw = Arguments.Raw();
        var layout = Arguments.Layout("The layout (TOML) of the records, where JOB is the bytes of a machine whose builder chose other fields.");
        var reading = new ShapeArguments();
        var command = new ExampleCommand("check", "Prove a job: that it is whole, fits the machine and, with --shape, works just that shape.",
            "bridge check kite.job --machine examples/machines/cardboard-plotter.toml --shape examples/shapes/kite.csv",
            "bridge check --image typed.txt --machine examples/machines/cardboard-plotter.toml")
        {
            job, machine, shape, json, raw, layout, typed,
        };
        command.Demand(parsed =>
        {
            if (parsed.GetValue(job) is null && parsed.GetValue(typed) is null)
                parsed.AddError("JOB: found nothing; allowed: a job, or --image with what was typed in from a sheet.");
        });
        reading.AddTo(command, shape.Name, parsed => parsed.GetValue(shape), isNeeded: false);
        command.SetAction(parsed =>
        {
            var source = reading.Source(parsed, parsed.GetValue(shape));
            var machinePath = parsed.GetRequiredValue(machine);
            var files = new CheckedFiles(parsed.GetValue(job), parsed.GetValue(typed), parsed.GetValue(layout), parsed.GetValue(raw));
            var check = () => Check(files, machinePath, source, reading.Of(parsed, report) with { Caution = null });
            return parsed.GetValue(json) ? PrintJson(report.Output, check) : Print(report, check());
        });
        return command;
    }

    private static CheckResult Check(CheckedFiles files, string machinePath, ShapeSource? source, ShapeOptions options)
    {
        var machine = MachineInput.Read(machinePath, out _);
        if (files.Layout is { } layoutPath)
        {
            var layout = LayoutFile.Read(layoutPath);
            var bytes = files.Job is { } image ? JobInput.ReadPlain(image, "--layout") : null;
            if (files.Typed is { } rows)
                bytes = TypedImage.Read(rows, layout.RecordBytes, bytes is null ? null : LayoutImage.Parse(layout, bytes, files.Job!).ToBytes());
            return LayoutCheck.Of(files.Typed ?? files.Job!, bytes, layout, machine, source?.Read(options.On(machine)));
        }
        var job = files.Job is { } path ? JobInput.Read(path, files.IsRaw, machine) : null;
        if (files.Typed is { } typed)
            job = new JobFile(machine.Grid, machine.Digest,
                Image.Parse(machine.Width, TypedImage.Read(typed, machine.Width.Bytes, job?.Image.Bytes.ToArray()), typed));
        var proof = JobProof.Of(job!, machine);
        var faults = proof.Faults.ToList();
        var against = source is null ? ([], 0) : WorkedShape.DifferencesFromHeld(job!.Image, machine, source.Read(options.On(machine)));
        faults.AddRange(against.Faults);
        var times = job!.Image.Width == machine.Width ? Timetable.Of(job!.Image, machine) : null;
        return CheckResult.Of(job!.Image, machine, proof, faults, times, source is not null) with { SupportCells = against.SupportCells };
    }

    private static int Print(Report report, CheckResult result)
    {
        report.Facts(
            ("records", $"{result.Records}"),
            ("store", $"{result.Bytes} of {result.StoreBytes} bytes"),
            ("cells", Counted.Cells(result.Worked?.A ?? 0, result.Worked?.B ?? 0, result.Layers ?? 0)),
            ("time", result.Seconds is { } seconds ? $"{Durations.Of(seconds)} predicted" : "unknown"),
            ("travel", result.TravelMm is { } travel ? FormattableString.Invariant($"{travel:0} mm") : "unknown"));
        foreach (var problem in result.Problems)
            report.Line($"Problem: {problem.Text}");
        foreach (var caution in result.Cautions)
            report.Line($"Caution: {caution.Text}");
        report.Line(result.Proved
            ? result.SupportCells > 0
                ? $"Proved against the machine and the shape with the support that a plan adds, {Counted.Of(result.SupportCells, "cell")} of head b."
            : result.AgainstShape ? "Proved against the machine and the shape."
            : "Proved against the machine. (Give --shape to hold it against a shape too.)"
            : $"Not proved: {Counted.Of(result.Problems.Count, "problem")}. It will not be run.");
        return result.Proved ? ExitCode.Done : ExitCode.Refused;
    }

    private static int PrintJson(TextWriter output, Func<CheckResult> check)
    {
        CheckResult result;
        try
        {
            result = check();
        }
        catch (RefusedException refused)
        {
            result = CheckResult.Unreadable(refused);
        }

        output.WriteLine(result.ToJson());
        return result.Proved ? ExitCode.Done : ExitCode.Refused;
    }
}

/// <summary>What is checked: a job, or what was typed in from a sheet, or one against the other.</summary>
/// <param name="Job">The job; null where only what was typed is given.</param>
/// <param name="Typed">What was typed in.</param>
/// <param name="Layout">The layout of its records; null where they are Bridge's own.</param>
/// <param name="IsRaw">Whether the job is the plain bytes of a store.</param>
internal sealed record CheckedFiles(string? Job, string? Typed, string? Layout, bool IsRaw);
