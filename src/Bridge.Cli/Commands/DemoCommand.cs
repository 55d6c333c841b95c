using System.CommandLine;
using Bridge.Mock;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>bridge demo: the whole way on an example.</summary>
internal static class DemoCommand
{
    public static Command Make(Report report)
    {
        var runs = Arguments.Runs();
        var command = new ExampleCommand("demo", "See all of it on an example: plan a lighthouse, prove it, and run it on the mock device.",
            "bridge demo")
        {
            runs,
        };
        command.SetAction((parsed, _) => RunAsync(report, parsed.GetRequiredValue(runs)));
        return command;
    }

    private static async Task<int> RunAsync(Report report, string runs)
    {
        var examples = Path.Combine(AppContext.BaseDirectory, "examples");
        var machine = Path.Combine(examples, "machines", "desktop-gantry.toml");
        report.Heading("1. Plan: a shape of text layers becomes a packed job");
        var shape = ShapeSource.File(Path.Combine(examples, "shapes", "lighthouse.txt"));
        if (PlanCommand.Plan(report, shape, machine, new ShapeOptions(), new PlanWishes()) is not { } job)
            return ExitCode.Refused;
        report.Line();
        report.Heading("2. Run: the mock device executes it, its time passing at once");
        var options = new RunOptions("lighthouse.job", machine, Device.MockName, Fast: true, runs, MockFaults.None, Seed: 1,
                Raw: false, Unattended: false, EndHeld: false);
        return await JobRun.ExecuteAsync(report, options, job.File).ConfigureAwait(false);
    }
}
