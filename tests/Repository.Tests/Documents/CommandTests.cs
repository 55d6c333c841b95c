using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>The commands that documents show are commands of the program.</summary>
public partial class CommandTests
{
    public static TheoryData<string, string> Shown
    {
        get
        {
            var commands = new TheoryData<string, string>();
            foreach (var page in Checkout.Files.Where(file => Path.GetExtension(file) == ".md"))
                foreach (var line in new MarkdownPage(Checkout.Read(page)).Code("./bridge "))
                    commands.Add(page, line);
            return commands;
        }
    }

    [Theory]
    [MemberData(nameof(Shown))]
    public void A_command_in_a_document_names_a_command_its_options_and_examples_that_exist(string page, string line) =>
        Findings.AssertNone(Mistakes(line).Select(mistake => $"{page}: {mistake}"));

    [Fact]
    public void The_program_lists_commands_and_options()
    {
        Assert.Contains("plan", ProgramHelp.Of().Commands);
        Assert.Contains("--machine", ProgramHelp.Of("plan").Options);
    }

    [Theory]
    [InlineData("./bridge dance shape.txt", "dance")]
    [InlineData("./bridge --loudly", "--loudly")]
    [InlineData("./bridge plan shape.txt --machine m.toml --glue=wet # sticks", "--glue")]
    [InlineData("./bridge plan shape.txt -z | less --tidy", "-z")]
    [InlineData("./bridge plan examples/shapes/no-such-shape.txt", "examples/shapes/no-such-shape.txt")]
    public void A_mistake_in_a_command_is_seen(string line, string mistake) => Assert.Equal([mistake], Mistakes(line));

    [Theory]
    [InlineData("./bridge ARGS")]
    [InlineData("./bridge --help")]
    [InlineData("./bridge plan examples/shapes/kite.csv --machine \"my machine --x.toml\" --out=kite.job && echo --done")]
    public void A_command_without_a_mistake_passes(string line) => Findings.AssertNone(Mistakes(line));

    private static List<string> Mistakes(string line)
    {
        var words = Word().Matches(End().Split(line)[0]).Select(match => match.Value).Skip(1).ToList();
        if (words is [var placeholder] && placeholder.All(char.IsAsciiLetterUpper))
            return [];
        var command = new List<string>();
        while (command.Count < words.Count && ProgramHelp.Of(command).Commands.Contains(words[command.Count]))
            command.Add(words[command.Count]);
        if (command.Count == 0 && words.Count > 0 && words[0][0] != '-')
            return [words[0]];
        var options = words.Where(word => word.Length > 1 && word[0] == '-' && !char.IsAsciiDigit(word[1])).Select(word => word.Split('=')[0]);
        var examples = words.Where(word => word.StartsWith("examples/", StringComparison.Ordinal));
        return [.. options.Except(ProgramHelp.Of(command).Options), .. examples.Except(Checkout.Files)];
    }

    [GeneratedRegex("""(?:"[^"]*"|'[^']*'|\S)+""")]
    private static partial Regex Word();

    /// <summary>Where the shell goes on with something else: a pipe, another command, a file, a remark.</summary>
    [GeneratedRegex(@"\s(?:\||&&|\|\||;|>|2>|<|#)(?:\s|$)")]
    private static partial Regex End();
}
