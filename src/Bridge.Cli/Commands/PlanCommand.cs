using System.CommandLine;
using System.Text;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge plan: a shape becomes a job.</summary>
internal static class PlanCommand
{
    public static Command Make(Report report)
    {
        var shape = Arguments.File("SHAPE",
            "The shape: text layers (.txt), comma-separated cells (.csv), a picture (.png), a drawing (.svg) or a mesh (.stl).");
        var machine = Arguments.Machine();
        var output = Arguments.File("--out", "JOB", "Where to write the job. Without it the plan is shown and nothing is written.");
        var image = Arguments.File("--image", "FILE", "Where to write the plain bytes of the store too, for a programmer or for switches.");
        var layout = Arguments.Layout(
            "A layout (TOML): the records of a machine whose builder chose other fields. The plan is said in those; --image writes their bytes.");
        shape.Arity = ArgumentArity.ZeroOrOne;
        var reading = new ShapeArguments();
        var noSupport = Arguments.Flag("--no-support", "Add no support by head b: refuse a shape if cells of it would fall. Its own B cells are kept.");
        var noOverprint = Arguments.Flag("--no-overprint", "Work no cell twice even where the machine allows it: a pen draws darker where it passes again.");
        var seconds = Arguments.PlanSeconds();
        var fit = new FitArguments();
        var command = new ExampleCommand("plan", "Turn a shape into the packed job that works it, and say what it costs.",
            "bridge plan examples/shapes/kite.csv --machine examples/machines/cardboard-plotter.toml --out kite.job",
            "bridge plan examples/shapes/heron.png --machine examples/machines/wide-plotter.toml --threshold 100",
            "bridge plan examples/shapes/teapot.svg --machine examples/machines/wide-plotter.toml --size 120mm --place middle",
            "bridge plan --text HELLO --height 9 --machine examples/machines/wide-plotter.toml",
            "bridge plan examples/shapes/lighthouse.txt --machine my-small-gantry.toml --fit turn,even,smooth --fit-cells 20 --out lighthouse.job",
            "bridge plan examples/shapes/kite.csv --machine examples/machines/cardboard-plotter.toml --layout examples/layouts/rows-only.toml --image kite.bin")
        {
            shape, machine, output, image, layout, noSupport, noOverprint, seconds,
        };
        reading.AddTo(command, shape.Name, parsed => parsed.GetValue(shape), isNeeded: true);
        fit.AddTo(command);
        command.Demand(parsed =>
        {
            if (parsed.GetValue(layout) is not null && (parsed.GetValue(output) is not null || parsed.GetResult(fit.Fit) is not null))
                parsed.AddError("--layout: found --out or --fit beside it; allowed: --image. Leave them out: a job file holds the records of Bridge itself, "
                    + "and --fit counts them.");
        });
        command.SetAction(parsed =>
        {
            var (from, on) = (reading.Source(parsed, parsed.GetValue(shape))!, parsed.GetRequiredValue(machine));
            var (job, bytes) = (parsed.GetValue(output), parsed.GetValue(image));
            var files = new OutputFiles([.. from.Files, on], ("--out", job), ("--image", bytes), ("--fit-shape", fit.ShapePath(parsed)));
            RefuseToReplaceAnother(job);
            var wishes = new PlanWishes
            {
                AddSupport = !parsed.GetValue(noSupport),
                MayOverprint = !parsed.GetValue(noOverprint),
                Seconds = parsed.GetValue(seconds),
                Fit = fit.Of(parsed),
            };
            if (parsed.GetValue(layout) is { } own)
                return LayoutPlanning.Run(report, new OutputFiles([.. from.Files, on, own], ("--image", bytes)), from, on, own, reading.Of(parsed, report),
                    wishes, bytes);
            var planned = Plan(report, from, on, reading.Of(parsed, report), wishes);
            if (planned is null)
                return ExitCode.Refused;
            Write(report, files, planned, job, bytes, fit.ShapePath(parsed));
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>Plans, tells what it costs, and proves. Null where the job does not fit the store: what would help has been told.</summary>
    /// <exception cref="RefusedException">A file is not good.</exception>
    public static PlannedJob? Plan(Report report, ShapeSource source, string machinePath, ShapeOptions options, PlanWishes wishes)
    {
        var machine = MachineInput.Read(machinePath, out _);
        var planned = machine with { MayOverprint = machine.MayOverprint && wishes.MayOverprint };
        options = options.On(machine) with { Limit = wishes.Fit is null ? machine.Grid : Shape.LargestGrid };
        var shape = source.Read(options);
        var found = wishes.Fit is { } fit
            ? TimedPlan.Fit(report, shape, planned, fit.For(shape, source, options, wishes.AddSupport), wishes.Seconds, TimeProvider.System)
            : null;
        var held = found?.Worked ?? Held(report, shape, machine, wishes);
        var plan = found?.Plan ?? TimedPlan.Of(report, held, planned, wishes.Seconds, TimeProvider.System);
        var image = Image.Of(plan.Width, plan.Records);
        Describe(report, source.Name, machine, plan, Timetable.Of(image, machine));
        if (found is not null)
        {
            TellSupport(report, found.Change.After, held);
            FitReport.Tell(report, found.Change);
        }
        if (found is not null && wishes.Fit?.Pictures is { } folder)
            FitReport.DrawPictures(report, shape, found, folder);
        if (!plan.Fits)
        {
            RefuseUnfit(report, source.Name, planned, plan, found is null
                ? PlanAdvice.For(shape, planned, FitLimits.Of(shape, source, options) with { AddSupport = wishes.AddSupport }, plan)
                : [$"The nearest found within the limits is {found.BytesTooMany} bytes too long: {found.Change}.",
                    "Allow more with --fit and --fit-cells, look longer with --seconds, or take a store that is larger."]);
            return null;
        }

        var job = new JobFile(machine.Grid, machine.Digest, image);
        var name = found is null || found.Change.IsNone ? "shape" : "changed shape";
        Prove(report, job, machine, held, held.Count(Head.B) > shape.Count(Head.B) ? $"{name} and its support" : name);
        return new PlannedJob(job, held);
    }

    // With the support it needs, or refused if it is to have none and needs it.
    public static Shape Held(Report report, Shape shape, Machine machine, PlanWishes wishes)
    {
        if (!wishes.AddSupport)
            return Support.Falling(shape, machine) is { } refusal ? throw new RefusedException([refusal]) : shape;
        var held = Support.Under(shape, machine);
        TellSupport(report, shape, held);
        return held;
    }

    private static void TellSupport(Report report, Shape shape, Shape held)
    {
        var added = held.Count(Head.B) - shape.Count(Head.B);
        if (added > 0)
            report.Line($"Support: {Counted.Of(added, "cell")} of head b added under what would fall."
                + (shape.IsEmpty(0) ? " The shape stands on it alone: no cell of its own is on layer 0." : ""));
    }

    private static void Prove(Report report, JobFile job, Machine machine, Shape shape, string name)
    {
        var proof = JobProof.Of(job, machine);
        var faults = proof.Faults.Concat(WorkedShape.Differences(job.Image, machine.Grid, shape)).ToList();
        if (faults.Count > 0)
            throw new InvalidOperationException($"The plan does not hold against its own shape: {faults[0]}");
        report.Line($"Proved: every cell of the {name} is worked by its head, and nothing else; every record is within the machine.");
        foreach (var caution in proof.Cautions)
            report.Line($"Caution: {caution}");
    }

    private static void Describe(Report report, string shapePath, Machine machine, Plan plan, Timetable times)
    {
        report.Heading($"{Path.GetFileName(shapePath)} on {machine.Name}");
        report.Facts(
            ("records", $"{plan.Records.Count} of {machine.StoreBytes / plan.Width.Bytes}, each {plan.Width.Bytes} bytes"),
            ("store", FormattableString.Invariant($"{plan.ImageBytes} of {machine.StoreBytes} bytes ({100.0 * plan.ImageBytes / machine.StoreBytes:0} %)")),
            ("gap", plan.Gap == 0
                ? "none: no layer by itself takes fewer records"
                : $"{Counted.Of(plan.Gap, "record")} at most above the fewest, layer by layer"),
            ("cells", Counted.Cells(plan.Layers.Sum(layer => (long)layer.CellsA), plan.Layers.Sum(layer => (long)layer.CellsB), plan.Layers.Count)),
            ("time", $"{Durations.Of(times.Seconds)} predicted"),
            ("travel", FormattableString.Invariant($"{times.WorkMm:0} mm at work, {times.IdleMm:0} mm idle")));
        report.Numbers(["layer", "records", "at least", "rectangles", "bytes", "cells a", "cells b", "seconds"],
            [.. plan.Layers.Select(layer => new[]
            {
                $"{layer.Layer}", $"{layer.Records}", $"{layer.AtLeast}", $"{layer.Rectangles}", $"{layer.Bytes}", $"{layer.CellsA}", $"{layer.CellsB}",
                FormattableString.Invariant($"{times.SecondsPerLayer[layer.Layer]:0.0}"),
            })]);
        report.Line("At least: no way of working the layer by itself takes fewer records. Rectangles: the fewest that its cells can be cut into. "
            + "Where again repeats the records of another layer it takes fewer, or none.");
    }

    private static void RefuseUnfit(Report report, string shapePath, Machine machine, Plan plan, IReadOnlyList<string> advice)
    {
        report.Line("What it costs, by kinds of records:");
        report.Numbers(["feature", "head", "records", "bytes"], [.. PlanCosts.Of(plan).Select(cost => new[]
        {
            cost.Feature, cost.Head is { } head ? $"{RecordWords.Name(head)}" : "", $"{cost.Records}", $"{cost.Bytes}",
        })]);
        report.Refused(new RefusedException(shapePath, $"a job of {plan.ImageBytes} bytes", $"up to {machine.StoreBytes} bytes, the store of {machine.Name}",
            "Nothing was written. What would help:"));
        foreach (var sentence in advice)
            report.Problem($"  - {sentence}");
    }

    private static void Write(Report report, OutputFiles files, PlannedJob planned, string? jobPath, string? imagePath, string? shapePath)
    {
        var contents = new List<ReadOnlyMemory<byte>>();
        if (jobPath is not null)
            contents.Add(planned.File.ToBytes());
        if (imagePath is not null)
            contents.Add(planned.File.Image.Bytes);
        if (shapePath is not null)
            contents.Add(TextOf(planned.Worked));
        files.Write(contents);
        foreach (var (name, path) in new[] { ("Job", jobPath), ("Image", imagePath), ("Shape", shapePath) })
            if (path is not null)
                report.Line($"{name}: {path}");
        if (contents.Count == 0)
            report.Line("Nothing was written: add --out JOB to keep the job.");
    }

    // A job may take the place of a job: it can be planned again. Whatever else stands there, somebody made by hand.
    private static void RefuseToReplaceAnother(string? job)
    {
        if (job is not null && File.Exists(job) && InputFile.ReadFirst(job, JobFile.SignatureBytes) is { Length: > 0 } first && !JobFile.HasSignature(first))
            throw new RefusedException($"--out {job}", "a file that is no job", "a new name, or a job to be replaced",
                "Choose another name: it would be lost.");
    }

    private static byte[] TextOf(Shape shape)
    {
        var text = new StringWriter();
        ShapeText.Write(shape, text);
        return Encoding.UTF8.GetBytes(text.ToString());
    }
}
