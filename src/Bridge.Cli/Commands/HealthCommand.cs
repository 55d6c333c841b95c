using System.CommandLine;
using System.Globalization;
using System.Text;
using Bridge.History;
using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>bridge health: a machine over its runs.</summary>
internal static class HealthCommand
{
    public static Command Make(Report report)
    {
        var machine = Arguments.Machine();
        var runs = Arguments.Runs("The folder that the folders of the runs are in.");
        var html = Arguments.File("--html", "FILE", "Where to write it as a page with charts.");
        var pdf = Arguments.File("--pdf", "FILE", "Where to write the same as a PDF.");
        var command = new ExampleCommand("health", "Tell how a machine does over its runs: steps lost, time to reference, hours and way, and what to look at.",
            "bridge health --machine my-plotter.toml --html health.html")
        {
            machine, runs, html, pdf,
        };
        command.SetAction(parsed => Tell(report, parsed.GetRequiredValue(machine), parsed.GetRequiredValue(runs), parsed.GetValue(html), parsed.GetValue(pdf)));
        return command;
    }

    private static int Tell(Report report, string machinePath, string runs, string? html, string? pdf)
    {
        var files = new OutputFiles([machinePath], ("--html", html), ("--pdf", pdf));
        var machine = MachineInput.Read(machinePath, out _);
        var health = new MachineHealth(machine.Name, PointsOf(report, machine, runs));
        foreach (var axis in health.Axes)
        {
            var lost = health.Lost(axis);
            var limits = ControlLimits.Of(lost) is { } known
                ? string.Create(CultureInfo.InvariantCulture, $"limits {known.Lower:0.#} to {known.Upper:0.#}")
                : "no limits yet";
            report.Line(string.Create(CultureInfo.InvariantCulture,
                $"Axis {axis}: last {lost[^1]} steps lost, mean {lost.Average():0.##} of {Counted.Of(lost.Count, "run")}, {limits}."));
        }

        report.Line(string.Create(CultureInfo.InvariantCulture,
            $"{Counted.Of(health.Points.Count, "run")}, {health.Points.Sum(point => point.WorkSeconds) / 3600:0.00} h at work, "
                + $"{health.Points.Sum(point => point.TravelMm ?? 0) / 1000:0.0} m."));
        foreach (var warning in health.Warnings)
            report.Line($"Caution: {warning}");
        if (health.Warnings.Count == 0)
            report.Line(health.Finding);
        var page = health.ToPage();
        files.Write([.. new[] { (html, Encoding.UTF8.GetBytes(HtmlPage.Of(page))), (pdf, PdfPage.Of(page)) }
            .Where(file => file.Item1 is not null).Select(file => (ReadOnlyMemory<byte>)file.Item2)]);
        return ExitCode.Done;
    }

    private static List<HealthPoint> PointsOf(Report report, Machine machine, string runs)
    {
        var (lines, _) = RunLine.ReadAll(runs);
        var points = new List<HealthPoint>();
        foreach (var line in lines.Where(line => line.Machine == machine.Name).TakeLast(MachineHealth.MostRuns))
            try
            {
                var run = PastRun.Read(line.Path);
                if (run.Verification.IsWhole)
                    points.Add(HealthPoint.Of(run));
                else
                    report.Line($"Left out: {line.Name}: {run.Verification.Problems[0]}");
            }
            catch (RefusedException refused)
            {
                report.Line($"Left out: {line.Name}: {refused.Refusals[0]}");
            }

        return points;
    }
}
