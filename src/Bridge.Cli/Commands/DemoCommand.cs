using System.CommandLine;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge demo: the whole way on an example.</summary>
internal static class DemoCommand
{
    public static Command Make(Report report)
    {
        var runs = new Option<string>("--runs") { Description = "Where the run's folder is made.", HelpName = "DIR", DefaultValueFactory = _ => "runs" };
        var command = new Command("demo", "See all of it on an example: plan a lighthouse, prove it, and run it on the mock device.") { runs };
        command.SetAction((parsed, _) => RunAsync(report, parsed.GetRequiredValue(runs)));
        return command;
    }

    private static async Task<int> RunAsync(Report report, string runs)
    {
        var examples = Path.Combine(AppContext.BaseDirectory, "examples");
        var shape = Path.Combine(examples, "shapes", "lighthouse.txt");
        var machine = Path.Combine(examples, "machines", "desktop-gantry.toml");
        var folder = Directory.CreateTempSubdirectory("bridge-demo-");
        try
        {
            var job = Path.Combine(folder.FullName, "lighthouse.job");
            report.Heading("1. Plan: a shape of text layers becomes a packed job");
            var planned = PlanCommand.Plan(report, shape, machine, job, imagePath: null, new ShapeOptions());
            if (planned != ExitCode.Done)
                return planned;
            report.Line();
            report.Heading("2. Run: the mock device executes it, its time passing at once");
            return await RunCommand.RunAsync(report, new RunOptions(job, machine, Device.MockName, Fast: true, runs, Faults: "", Seed: 1, Raw: false)).ConfigureAwait(false);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
