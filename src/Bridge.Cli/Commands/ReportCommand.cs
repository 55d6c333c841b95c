using System.CommandLine;
using System.Text;
using Bridge.History;
using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>bridge report: a run on one page, and its events as data.</summary>
internal static class ReportCommand
{
    public static Command Make(Report report)
    {
        var run = Arguments.Run();
        var html = Arguments.File("--html", "FILE", "Where to write the page; beside the run's folder, with its name, if not given.");
        var pdf = Arguments.File("--pdf", "FILE", "Where to write the same as a PDF; beside the run's folder, with its name, if not given.");
        var csv = Arguments.File("--csv", "FILE", "Where to write the run's events as CSV.");
        var lines = Arguments.File("--jsonl", "FILE", "Where to write the run's events as JSON Lines.");
        var command = new ExampleCommand("report",
            "Make one page of a run, as HTML that needs no other file and as a PDF: what happened, when, and whether it was as planned.",
            "bridge report runs/2026-05-04T16-20-00Z-kite",
            "bridge report runs/2026-05-04T16-20-00Z-kite --html kite.html --pdf kite.pdf --csv kite.csv")
        {
            run, html, pdf, csv, lines,
        };
        command.SetAction(parsed =>
        {
            var path = parsed.GetRequiredValue(run);
            var beside = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
            var isPlaced = parsed.GetValue(html) is not null && parsed.GetValue(pdf) is not null;
            return Make(report, path, isPlaced, parsed.GetValue(html) ?? $"{beside}.html", parsed.GetValue(pdf) ?? $"{beside}.pdf",
                parsed.GetValue(csv), parsed.GetValue(lines));
        });
        return command;
    }

    // A run may lie where nothing can be written, such as on a card that is locked: it is read all the same.
    private static int Make(Report report, string path, bool isPlaced, string html, string pdf, string? csv, string? lines)
    {
        var run = PastRun.Read(path);
        try
        {
            return Make(report, run, html, pdf, csv, lines);
        }
        catch (RefusedException refused) when (!isPlaced)
        {
            throw new RefusedException([.. refused.Refusals.Select(refusal => refusal with
            {
                Action = "It goes beside the run's folder if nothing else is said: give --html FILE and --pdf FILE where there is room and leave to write.",
            })]);
        }
    }

    private static int Make(Report report, PastRun run, string html, string pdf, string? csv, string? lines)
    {
        var files = new OutputFiles([], ("--html", html), ("--pdf", pdf), ("--csv", csv), ("--jsonl", lines));
        var page = RunReport.Of(run);
        var contents = new List<ReadOnlyMemory<byte>> { Encoding.UTF8.GetBytes(HtmlPage.Of(page)), PdfPage.Of(page) };
        if (csv is not null || lines is not null)
        {
            var events = DataOut.Of(run);
            if (csv is not null)
                contents.Add(Encoding.UTF8.GetBytes(events.ToCsv()));
            if (lines is not null)
                contents.Add(Encoding.UTF8.GetBytes(events.ToJsonLines()));
        }

        files.Write(contents);
        report.Line($"{run.Name}: {page.Lead}");
        if (run.Verification.Problems is [var problem, ..])
            report.Line($"Caution: this record is not whole: {problem}");
        foreach (var written in new[] { html, pdf, csv, lines }.OfType<string>())
            report.Line($"Written: {written}");
        return ExitCode.Done;
    }
}
