using System.CommandLine;
using System.Text;
using Bridge.Jobs;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>bridge explain: a job record by record, for someone who learns it.</summary>
internal static class ExplainCommand
{
    private static readonly Dictionary<string, Action<JobExplanation, TextWriter>> Forms = new(StringComparer.OrdinalIgnoreCase)
    {
        [".txt"] = TextExplanation.Write,
        [".md"] = MarkdownExplanation.Write,
        [".html"] = HtmlExplanation.Write,
    };

    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var machine = Arguments.MaybeMachine();
        var output = Arguments.File("--out", "FILE",
            "Where to write it: a Markdown page (.md), a page for a browser (.html) or text (.txt). Without it, it is shown.");
        var raw = Arguments.Raw();
        var command = new ExampleCommand("explain",
            "Explain a job record by record: its bits under the names of their fields, what they mean, where it goes, what it works and how long it takes.",
            "bridge explain kite.job --machine examples/machines/cardboard-plotter.toml",
            "bridge explain kite.job --machine examples/machines/cardboard-plotter.toml --out kite.html")
        {
            job, machine, output, raw,
        };
        command.Validators.Add(parsed =>
        {
            if (parsed.GetValue(raw) && parsed.GetValue(machine) is null)
                parsed.AddError("--raw: found no --machine; allowed: a machine file beside it, which tells the record width and the grid.");
            if (parsed.GetValue(output) is { Length: > 0 } path && !Forms.ContainsKey(Path.GetExtension(path)))
                parsed.AddError($"--out: found {path}; allowed: a name that ends with {string.Join(", ", Forms.Keys)}.");
        });
        command.SetAction(parsed =>
            Explain(report, parsed.GetRequiredValue(job), parsed.GetValue(machine), parsed.GetValue(raw), parsed.GetValue(output)));
        return command;
    }

    private static int Explain(Report report, string jobPath, string? machinePath, bool raw, string? outPath)
    {
        var files = new OutputFiles(machinePath is null ? [jobPath] : [jobPath, machinePath], ("--out", outPath));
        var machine = machinePath is null ? null : MachineInput.Read(machinePath, out _);
        var job = machine is null ? JobFile.Read(jobPath) : JobInput.ReadFor(jobPath, raw, machine);
        var explanation = JobExplanation.Of(Shown.Of(Path.GetFileName(jobPath)), job, machine);
        if (outPath is null)
        {
            TextExplanation.Write(explanation, report.Output);
        }
        else
        {
            var text = new StringWriter();
            Forms[Path.GetExtension(outPath)](explanation, text);
            files.Write(Encoding.UTF8.GetBytes(text.ToString()));
            report.Line($"Explanation: {outPath}");
        }

        if (machine is not null && job.Machine != machine.Digest)
            report.Line($"Caution: the job was planned with another machine file; the times are those of {machine.Name}.");
        return explanation.Fault is null ? ExitCode.Done : ExitCode.Refused;
    }
}
