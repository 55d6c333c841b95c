using System.CommandLine;
using System.Text;
using Bridge.Jobs;
using Bridge.Layouts;
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
        var layout = Arguments.Layout("The layout (TOML) of the records, where JOB is the bytes of a machine whose builder chose other fields.");
        var command = new ExampleCommand("explain",
            "Explain a job record by record: its bits under the names of their fields, what they mean, where it goes, what it works and how long it takes.",
            "bridge explain kite.job --machine examples/machines/cardboard-plotter.toml",
            "bridge explain kite.job --machine examples/machines/cardboard-plotter.toml --out kite.html",
            "bridge explain kite.bin --layout examples/layouts/rows-only.toml --out kite.html")
        {
            job, machine, output, raw, layout,
        };
        command.Demand(parsed =>
        {
            if (parsed.GetValue(raw) && parsed.GetValue(layout) is null && parsed.GetValue(machine) is null)
                parsed.AddError("--raw: found no --machine; allowed: a machine file beside it, which tells the record width and the grid.");
            if (parsed.GetValue(output) is { Length: > 0 } path && !Forms.ContainsKey(Path.GetExtension(path)))
                parsed.AddError($"--out: found {path}; allowed: a name that ends with {string.Join(", ", Forms.Keys)}.");
        });
        command.SetAction(parsed =>
        {
            var (path, machinePath, layoutPath) = (parsed.GetRequiredValue(job), parsed.GetValue(machine), parsed.GetValue(layout));
            var files = new OutputFiles(new[] { path, machinePath, layoutPath }.OfType<string>(), ("--out", parsed.GetValue(output)));
            var known = machinePath is null ? null : MachineInput.Read(machinePath, out _);
            return layoutPath is null ? Explain(report, files, path, known, parsed.GetValue(raw), parsed.GetValue(output))
                : Tell(report, files, LayoutExplaining.Of(path, LayoutFile.Read(layoutPath), known), parsed.GetValue(output));
        });
        return command;
    }

    private static int Explain(Report report, OutputFiles files, string jobPath, Machine? machine, bool raw, string? outPath)
    {
        var job = machine is null ? JobFile.Read(jobPath) : JobInput.ReadFor(jobPath, raw, machine);
        var told = Tell(report, files, JobExplanation.Of(Shown.Of(Path.GetFileName(jobPath)), job, machine), outPath);
        if (machine is not null && job.Machine != machine.Digest)
            report.Line($"Caution: the job was planned with another machine file; the times are those of {machine.Name}.");
        return told;
    }

    private static int Tell(Report report, OutputFiles files, JobExplanation explanation, string? outPath)
    {
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

        return explanation.Fault is null ? ExitCode.Done : ExitCode.Refused;
    }
}
