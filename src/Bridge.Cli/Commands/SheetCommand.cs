using System.CommandLine;
using Bridge.Jobs;
using Bridge.Layouts;

namespace Bridge.Cli;

/// <summary>bridge sheet: an image on paper, to set by hand.</summary>
internal static class SheetCommand
{
    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var output = Arguments.File("--out", "FILE", $"Where to write the sheet: {PageFile.Endings}.");
        output.Required = true;
        var layout = Arguments.Layout("The layout (TOML) of the records, where JOB is the bytes of a machine whose builder chose other fields.");
        var machine = Arguments.MaybeMachine();
        var raw = Arguments.Raw();
        var command = new ExampleCommand("sheet",
            "Put a job on paper: a row of bits for each record, to set by hand or to punch, with a check digit and a box to tick.",
            "bridge sheet kite.job --out kite.pdf",
            "bridge sheet kite.bin --layout examples/layouts/rows-only.toml --out kite.html")
        {
            job, output, layout, machine, raw,
        };
        command.Demand(parsed =>
        {
            if (parsed.GetValue(raw) && parsed.GetValue(machine) is null && parsed.GetValue(layout) is null)
                parsed.AddError("--raw: found no --machine or --layout; allowed: one of them beside it, which says how large a record is.");
        });
        command.SetAction(parsed =>
        {
            var (path, file) = (parsed.GetRequiredValue(job), parsed.GetRequiredValue(output));
            PageFile.Check(file);
            var files = new OutputFiles(new[] { path, parsed.GetValue(layout), parsed.GetValue(machine) }.OfType<string>(), ("--out", file));
            var sheet = SheetOf(path, parsed.GetValue(layout), parsed.GetValue(raw) ? parsed.GetValue(machine) : null);
            var pages = sheet.Pages();
            files.Write(PageFile.Of(file, sheet.Title, pages));
            report.Line($"Sheet: {file}, {Counted.Of(sheet.Rows, "row")} on {Counted.Of(pages.Count, "page")}.");
            report.Line("bridge check --image FILE reads back what was typed in from it.");
            return ExitCode.Done;
        });
        return command;
    }

    private static ImageSheet SheetOf(string path, string? layoutPath, string? machinePath)
    {
        var title = Path.GetFileName(path);
        if (layoutPath is not null)
        {
            var layout = LayoutFile.Read(layoutPath);
            return new ImageSheet(title, SheetBoxes.Of(layout), LayoutImage.Parse(layout, JobInput.ReadPlain(path, "--layout"), path).ToBytes());
        }
        var image = machinePath is null ? JobFile.Read(path).Image : JobInput.Read(path, raw: true, MachineInput.Read(machinePath, out _)).Image;
        return new ImageSheet(title, SheetBoxes.Of(image.Width), image.Bytes);
    }
}
