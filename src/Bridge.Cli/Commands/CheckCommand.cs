using System.CommandLine;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge check: a job is held against a machine and, if one is given, against a shape.</summary>
internal static class CheckCommand
{
    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var machine = Arguments.Machine();
        var shape = Arguments.File("--shape", "SHAPE", "The shape that the job should work, cell for cell.");
        var json = Arguments.Flag("--json", "Print the result as JSON, for a program. Nothing else is printed then.");
        var raw = Arguments.Raw();
        var layout = Arguments.Layout("The layout (TOML) of the records, where JOB is the bytes of a machine whose builder chose other fields.");
        var reading = new ShapeArguments();
        var command = new ExampleCommand("check", "Prove a job: that it is whole, fits the machine and, with --shape, works just that shape.",
            "bridge check kite.job --machine examples/machines/cardboard-plotter.toml --shape examples/shapes/kite.csv")
        {
            job, machine, shape, json, raw, layout,
        };
        reading.AddTo(command, shape.Name, parsed => parsed.GetValue(shape), isNeeded: false);
        command.SetAction(parsed =>
        {
            var source = reading.Source(parsed, parsed.GetValue(shape));
            var check = () => Check(parsed.GetRequiredValue(job), parsed.GetRequiredValue(machine), source, parsed.GetValue(raw),
                parsed.GetValue(layout), reading.Of(parsed, report) with { Caution = null });
            return parsed.GetValue(json) ? PrintJson(report.Output, check) : Print(report, check());
        });
        return command;
    }

    private static CheckResult Check(string jobPath, string machinePath, ShapeSource? source, bool raw, string? layoutPath, ShapeOptions options)
    {
        var machine = MachineInput.Read(machinePath, out _);
        if (layoutPath is not null)
            return LayoutCheck.Of(jobPath, layoutPath, machine, source?.Read(options.On(machine)));
        var job = JobInput.Read(jobPath, raw, machine);
        var proof = JobProof.Of(job, machine);
        var faults = proof.Faults.ToList();
        if (source is not null)
            faults.AddRange(WorkedShape.DifferencesFromHeld(job.Image, machine, source.Read(options.On(machine))));
        var times = job.Image.Width == machine.Width ? Timetable.Of(job.Image, machine) : null;
        return CheckResult.Of(job.Image, machine, proof, faults, times, source is not null);
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
            ? result.AgainstShape ? "Proved against the machine and the shape." : "Proved against the machine. (Give --shape to hold it against a shape too.)"
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
