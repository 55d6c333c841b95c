using System.CommandLine;
using Bridge.Cli;
using Bridge.Jobs;
using Spectre.Console;

// Everything is wired here: what the commands write to, and what they are made of.
var report = new Report(AnsiConsole.Console, Console.Out, isTerminal: !Console.IsOutputRedirected);
var root = new RootCommand("Turns a shape into the shortest packed job for a small gantry machine, proves it, and runs it.")
{
    PlanCommand.Make(report),
    CheckCommand.Make(report, Console.Out),
    ShowCommand.Make(report, Console.Out),
    RunCommand.Make(report),
    DemoCommand.Make(report),
};
var parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(error.Message);
    Console.Error.WriteLine("See bridge --help, and bridge COMMAND --help.");
    return ExitCode.Usage;
}

try
{
    return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });
}
catch (RefusedException refused)
{
    foreach (var refusal in refused.Refusals)
        Console.Error.WriteLine($"Refused: {refusal}");
    return ExitCode.Refused;
}
