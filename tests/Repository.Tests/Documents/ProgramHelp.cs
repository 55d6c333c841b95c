using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>What the built program says of its commands and their options, from its --help.</summary>
internal sealed partial class ProgramHelp
{
    private static readonly ConcurrentDictionary<string, ProgramHelp> Read = new();

    private ProgramHelp(string text)
    {
        var section = "";
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n'))
            if (line.Length > 0 && line[0] != ' ')
                section = line;
            else if (section == "Commands:" && CommandName().Match(line) is { Success: true } command)
                Commands.Add(command.Groups["name"].Value);
            else if (section == "Options:")
                Options.UnionWith(OptionName().Matches(LeftColumn().Match(line).Value).Select(option => option.Value));
    }

    public HashSet<string> Commands { get; } = [];

    public HashSet<string> Options { get; } = [];

    /// <summary>The help of a command; no words mean the program itself.</summary>
    public static ProgramHelp Of(params IEnumerable<string> words) => Read.GetOrAdd(string.Join(' ', words), command => new ProgramHelp(Ask(command)));

    private static string Ask(string command)
    {
        var start = new ProcessStartInfo("dotnet", ["bridge.dll", .. command.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--help"])
        {
            WorkingDirectory = AppContext.BaseDirectory,
            RedirectStandardOutput = true,
        };
        using var program = Process.Start(start)!;
        var help = program.StandardOutput.ReadToEnd();
        program.WaitForExit();
        Assert.Equal((command, 0), (command, program.ExitCode));
        return help;
    }

    [GeneratedRegex(@"^  (?<name>[a-z][\w-]*)")]
    private static partial Regex CommandName();

    [GeneratedRegex("^  -.*?(?=  |$)")]
    private static partial Regex LeftColumn();

    [GeneratedRegex(@"(?<![\w<-])--?[\w?][\w-]*")]
    private static partial Regex OptionName();
}
