using System.CommandLine;
using Bridge.Jobs;
using Bridge.Planning;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge show: a job as its bits, in words and in pictures.</summary>
internal static class ShowCommand
{
    private const int WidestTextLayer = 64;

    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var machine = Arguments.MaybeMachine();
        var pictures = Arguments.File("--pictures", "DIR", "A folder for one PNG picture of each layer.");
        var raw = Arguments.Raw();
        var command = new ExampleCommand("show", "List a job: each record's bytes and bits, what it means in words, and what each layer looks like.",
            "bridge show kite.job --pictures pictures")
        {
            job, machine, pictures, raw,
        };
        command.Demand(parsed =>
        {
            if (parsed.GetValue(raw) && parsed.GetValue(machine) is null)
                parsed.AddError("--raw: found no --machine; allowed: a machine file beside it, which tells the record width and the grid.");
        });
        command.SetAction(parsed => Show(report, parsed.GetRequiredValue(job), parsed.GetValue(machine), parsed.GetValue(pictures), parsed.GetValue(raw)));
        return command;
    }

    private static int Show(Report report, string jobPath, string? machinePath, string? pictures, bool raw)
    {
        var machine = machinePath is null ? null : MachineInput.Read(machinePath, out _);
        var job = machine is null ? JobFile.Read(jobPath) : JobInput.Read(jobPath, raw, machine);
        report.Heading($"{Path.GetFileName(jobPath)}: {Counted.Of(job.Image.Count, "record")} of {job.Image.Width.Bytes} bytes for a grid of {job.Grid}");
        List(report.Output, job.Image);
        if (job.Grid.X <= WidestTextLayer && job.Grid.Y <= WidestTextLayer)
            Draw(report.Output, WorkedShape.Of(job.Image, job.Grid));
        if (pictures is not null)
            PictureFolder.Fill(report, "--pictures", pictures, () => LayerPicture.DrawAll(WorkedCells.Of(job.Image, job.Grid), pictures));
        var faults = machine is null ? FaultOf(job) : JobProof.Of(job, machine).Faults;
        foreach (var fault in faults)
            report.Line($"Problem: {fault}");
        return faults.Count == 0 ? ExitCode.Done : ExitCode.Refused;
    }

    private static void List(TextWriter output, Image image)
    {
        for (var index = 0; index < image.Count; index++)
        {
            var bytes = image.Bytes.Span.Slice(index * image.Width.Bytes, image.Width.Bytes);
            var record = image[index];
            output.WriteLine($"{index,5}  {index * image.Width.Bytes,6}  {Spaced(bytes)}  "
                + $"{RecordWords.Bits(image.Width, record)}  {RecordWords.Meaning(image.Width, record)}");
        }
    }

    private static void Draw(TextWriter output, Shape shape)
    {
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            output.WriteLine($"layer {layer}: {shape.Count(layer, Head.A)} cells by head a, {shape.Count(layer, Head.B)} by head b");
            for (var y = shape.Depth - 1; y >= 0; y--)
                output.WriteLine("  " + string.Concat(Enumerable.Range(0, shape.Width).Select(x => Mark(shape[x, y, layer]))));
        }
    }

    private static char Mark(Head? head) => head switch { Head.A => 'A', Head.B => 'B', _ => '.' };

    private static IReadOnlyList<JobFault> FaultOf(JobFile job)
    {
        var passes = new PassReader(job.Image, job.Grid);
        while (passes.TryNext(out _))
        {
        }

        return passes.Fault is { } fault ? [fault] : [];
    }

    public static string Spaced(ReadOnlySpan<byte> bytes) => string.Join(' ', Convert.ToHexString(bytes).Chunk(2).Select(pair => new string(pair)));
}
