using System.CommandLine;
using Bridge.Jobs;
using Bridge.Planning;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge show: a job as its bits, in words and in pictures.</summary>
internal static class ShowCommand
{
    private const int WidestTextLayer = 64;

    public static Command Make(Report report, TextWriter output)
    {
        var job = Arguments.Job();
        var machine = Arguments.Machine(required: false);
        var pictures = new Option<string?>("--pictures") { Description = "A folder for one PNG picture of each layer.", HelpName = "DIR" };
        var raw = Arguments.Raw();
        var command = new Command("show", "List a job: each record's bytes and bits, what it means in words, and what each layer looks like.") { job, machine, pictures, raw };
        command.SetAction(parsed => Show(report, output, parsed.GetRequiredValue(job), parsed.GetValue(machine), parsed.GetValue(pictures), parsed.GetValue(raw)));
        return command;
    }

    private static int Show(Report report, TextWriter output, string jobPath, string? machinePath, string? pictures, bool raw)
    {
        var machine = machinePath is null ? null : MachineFile.Read(machinePath);
        if (raw && machine is null)
            throw new RefusedException("--raw", "no --machine", "a machine file, for the record width and the grid", "Add --machine FILE.");
        var job = raw ? JobInput.Read(jobPath, raw, machine!) : JobFile.Read(jobPath);
        report.Heading($"{Path.GetFileName(jobPath)}: {job.Image.Count} records of {job.Image.Width.Bytes} bytes for a grid of {job.Grid}");
        List(output, job.Image);
        var shape = WorkedShape.Of(job.Image, job.Grid);
        if (job.Grid.X <= WidestTextLayer)
            Draw(output, shape);
        if (pictures is not null)
            DrawPictures(report, job, pictures);
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
            output.WriteLine($"{index,5}  {index * image.Width.Bytes,6}  {Spaced(bytes)}  {RecordWords.Bits(image.Width, record)}  {RecordWords.Meaning(image.Width, record)}");
        }
    }

    private static void Draw(TextWriter output, Shape shape)
    {
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            output.WriteLine($"layer {layer}: {shape.Count(layer, Head.A)} cells by head a, {shape.Count(layer, Head.B)} by head b");
            for (var y = shape.Depth - 1; y >= 0; y--)
                output.WriteLine("  " + string.Concat(Enumerable.Range(0, shape.Width).Select(x => shape[x, y, layer] switch { Head.A => 'A', Head.B => 'B', _ => '.' })));
        }
    }

    private static void DrawPictures(Report report, JobFile job, string folder)
    {
        try
        {
            report.Line($"{LayerPicture.DrawAll(WorkedCells.Of(job.Image, job.Grid), folder)} pictures: {folder}");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new RefusedException(folder, error.Message, "a folder that can be written", "Choose another one with --pictures.");
        }
    }

    private static IReadOnlyList<JobFault> FaultOf(JobFile job)
    {
        var passes = new PassReader(job.Image, job.Grid);
        while (passes.TryNext(out _))
        {
        }

        return passes.Fault is { } fault ? [fault] : [];
    }

    private static string Spaced(ReadOnlySpan<byte> bytes) => string.Join(' ', Convert.ToHexString(bytes).Chunk(2).Select(pair => new string(pair)));
}
