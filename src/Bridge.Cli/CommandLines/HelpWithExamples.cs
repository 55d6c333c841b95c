using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Bridge.Cli;

/// <summary>Help as the library prints it, and the command's examples below.</summary>
internal sealed class HelpWithExamples(HelpAction help) : SynchronousCommandLineAction
{
    // Who asks for help gets it, whatever else is wrong with the command line.
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parsed)
    {
        help.Invoke(parsed);
        var output = parsed.InvocationConfiguration.Output;
        if (parsed.CommandResult.Command is ExampleCommand { Examples: { Count: > 0 } examples })
        {
            output.WriteLine(examples.Count == 1 ? "Example:" : "Examples:");
            foreach (var example in examples)
                output.WriteLine($"  {example}");
            output.WriteLine();
        }

        return ExitCode.Done;
    }
}
