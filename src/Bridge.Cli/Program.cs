using System.CommandLine;
using System.Device.Gpio;
using Bridge.Station;

namespace Bridge.Cli;

/// <summary>The program. Everything is wired here: what the commands write to, and what they are.</summary>
internal static class Program
{
    public static Task<int> Main(string[] args)
    {
        var output = new OutputWriter(Console.Out);
        Console.SetOut(output); // what draws at a terminal by itself goes through it too
        return RunAsync(args, new Report(output, Console.Error, isTerminal: !Console.IsOutputRedirected, isInput: !Console.IsInputRedirected));
    }

    /// <summary>Runs a command line to its end and gives the exit code. The pins of a station are this computer's, or those that are given.</summary>
    public static Task<int> RunAsync(IReadOnlyList<string> args, Report report, Func<StationWiring, GpioController>? pins = null) =>
        CommandLine.RunAsync(Root(report, pins ?? StationPins.Open), args, report);

    /// <summary>All that the program can be asked for.</summary>
    internal static RootCommand Root(Report report, Func<StationWiring, GpioController> pins) =>
        new("Turns a shape into the shortest packed job for a small gantry machine, proves it, and runs it.")
        {
            PlanCommand.Make(report),
            CheckCommand.Make(report),
            ShowCommand.Make(report),
            ExplainCommand.Make(report),
            StepCommand.Make(report),
            TraceCommand.Make(report),
            LogicCommand.Make(report),
            SheetCommand.Make(report),
            LessonCommand.Make(report),
            RunCommand.Make(report, pins),
            StoreCommand.Make(report),
            SetupCommand.Make(report),
            ReferenceCommand.Make(report),
            MoveCommand.Make(report),
            HeadsCommand.Make(report),
            InputsCommand.Make(report),
            CalibrateCommand.Make(report),
            PortsCommand.Make(report),
            PanelCommand.Make(report),
            RunsCommand.Make(report),
            ReportCommand.Make(report),
            VerifyCommand.Make(report),
            CompareCommand.Make(report),
            ReplayCommand.Make(report),
            HealthCommand.Make(report),
            DemoCommand.Make(report),
        };
}
