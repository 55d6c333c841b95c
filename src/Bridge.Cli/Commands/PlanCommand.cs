using System.CommandLine;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge plan: a shape becomes a job.</summary>
internal static class PlanCommand
{
    public static Command Make(Report report)
    {
        var shape = new Argument<string>("SHAPE") { Description = "The shape: text layers (.txt), comma-separated cells (.csv) or a picture (.png)." };
        var machine = Arguments.Machine();
        var output = new Option<string?>("--out") { Description = "Where to write the job. Without it nothing is written.", HelpName = "JOB" };
        var image = new Option<string?>("--image") { Description = "Where to write the plain bytes of the store too, for a programmer or for switches.", HelpName = "FILE" };
        var threshold = Arguments.Threshold();
        var dither = Arguments.Dither();
        var command = new Command("plan", "Turn a shape into the packed job that works it, and say what it costs.") { shape, machine, output, image, threshold, dither };
        command.SetAction(parsed => Plan(report, parsed.GetRequiredValue(shape), parsed.GetRequiredValue(machine), parsed.GetValue(output), parsed.GetValue(image),
            new ShapeOptions { Threshold = parsed.GetValue(threshold), Dither = parsed.GetValue(dither) }));
        return command;
    }

    /// <summary>Plans, proves, reports and writes.</summary>
    public static int Plan(Report report, string shapePath, string machinePath, string? output, string? imagePath, ShapeOptions options)
    {
        var machine = MachineFile.Read(machinePath);
        var shape = ShapeFile.Read(shapePath, options with { Limit = machine.Grid });
        var plan = Planner.Plan(shape, machine);
        var image = Image.Of(plan.Width, plan.Records);
        Describe(report, shapePath, machine, plan, Timetable.Of(image, machine));
        if (!plan.Fits)
            return Refuse(report, shape, machine, plan);

        var job = new JobFile(machine.Grid, machine.Digest, image);
        var proof = JobProof.Of(job, machine);
        var faults = proof.Faults.Concat(WorkedShape.Differences(image, machine.Grid, shape)).ToList();
        if (faults.Count > 0)
            throw new InvalidOperationException($"The plan does not hold against its own shape: {faults[0]}");
        report.Line("Proved: every cell of the shape is worked by its head, and nothing else; every record is within the machine.");
        foreach (var caution in proof.Cautions)
            report.Line($"Caution: {caution}");
        Write(report, "Job", output, job.ToBytes());
        Write(report, "Image", imagePath, image.Bytes.Span);
        return ExitCode.Done;
    }

    private static void Describe(Report report, string shapePath, Machine machine, Plan plan, Timetable times)
    {
        report.Heading($"{Path.GetFileName(shapePath)} on {machine.Name}");
        report.Facts(
            ("records", $"{plan.Records.Count} of {machine.StoreBytes / plan.Width.Bytes}, each {plan.Width.Bytes} bytes"),
            ("store", $"{plan.ImageBytes} of {machine.StoreBytes} bytes ({100.0 * plan.ImageBytes / machine.StoreBytes:0} %)"),
            ("cells", CellWords(plan)),
            ("time", $"{Durations.Of(times.Seconds)} predicted"),
            ("travel", FormattableString.Invariant($"{times.WorkMm:0} mm at work, {times.IdleMm:0} mm idle")));
        report.Numbers(["layer", "records", "bytes", "cells a", "cells b", "seconds"],
            [.. plan.Layers.Select(layer => new[]
            {
                $"{layer.Layer}", $"{layer.Records}", $"{layer.Bytes}", $"{layer.CellsA}", $"{layer.CellsB}",
                FormattableString.Invariant($"{times.SecondsPerLayer[layer.Layer]:0.0}"),
            })]);
    }

    private static string CellWords(Plan plan) =>
        $"{plan.Layers.Sum(layer => (long)layer.CellsA)} by head a, {plan.Layers.Sum(layer => (long)layer.CellsB)} by head b, on {plan.Layers.Count} layers";

    private static int Refuse(Report report, Shape shape, Machine machine, Plan plan)
    {
        report.Line($"It does not fit: {plan.ImageBytes - machine.StoreBytes} bytes too many. Nothing was written. What would help:");
        foreach (var advice in PlanAdvice.For(shape, machine))
            report.Line($"  - {advice}");
        return ExitCode.Refused;
    }

    private static void Write(Report report, string what, string? path, ReadOnlySpan<byte> bytes)
    {
        if (path is null)
            return;
        OutputFile.Write(path, bytes);
        report.Line($"{what}: {path}");
    }
}
