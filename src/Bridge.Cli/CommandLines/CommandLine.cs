using System.CommandLine;
using System.CommandLine.Help;

namespace Bridge.Cli;

/// <summary>A command line, from its words to an exit code.</summary>
internal static class CommandLine
{
    // A file may be named @cells.txt: no word stands for a file of further words.
    private static readonly ParserConfiguration Parsing = new() { ResponseFileTokenReplacer = null };

    /// <summary>Parses and runs it. Usage errors, refusals and our own bugs end as words on the error output and an exit code.</summary>
    public static Task<int> RunAsync(RootCommand root, IReadOnlyList<string> args, Report report)
    {
        Describe(root);
        root.SetAction(_ => HelpInstead(root, report));
        var running = new InvocationConfiguration
        {
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null, // a run stops its machine before the program ends
            Output = report.Output,
            Error = report.Error,
        };
        return Trouble.CaughtAsync(report, () =>
        {
            var parsed = root.Parse(args, Parsing);
            return parsed.Errors.Count > 0 && parsed.Action is not HelpWithExamples
                ? Task.FromResult(Misused(parsed, report))
                : parsed.InvokeAsync(running);
        });
    }

    private static void Describe(RootCommand root)
    {
        foreach (var option in root.Options)
            if (option is HelpOption { Action: HelpAction help } asked)
            {
                asked.Description = "Show this text.";
                asked.Action = new HelpWithExamples(help);
            }
            else if (option is VersionOption version)
            {
                version.Description = "Show the version.";
            }
    }

    // No command at all: a newcomer, most likely.
    private static int HelpInstead(RootCommand root, Report report)
    {
        root.Parse(["--help"], Parsing).Invoke(new InvocationConfiguration { Output = report.Error });
        return ExitCode.Usage;
    }

    private static int Misused(ParseResult parsed, Report report)
    {
        var command = parsed.CommandResult.Command;
        foreach (var mistake in Mistakes.Of(parsed))
            report.Problem(mistake);
        report.Problem($"Usage: {UsageOf(command)}");
        report.Problem($"{NameOf(command)} --help tells more.");
        return ExitCode.Usage;
    }

    private static string UsageOf(Command command)
    {
        var words = command.Arguments.Select(argument => argument.Name)
            .Concat(command.Options.Where(option => option.Required).Select(option => $"{option.Name} {option.HelpName}"))
            .Prepend(NameOf(command));
        return string.Join(' ', words) + (command is RootCommand ? " COMMAND" : "") + " [options]";
    }

    private static string NameOf(Command command) =>
        command is RootCommand ? "bridge" : $"{command.Parents.OfType<Command>().Select(NameOf).First()} {command.Name}";
}
