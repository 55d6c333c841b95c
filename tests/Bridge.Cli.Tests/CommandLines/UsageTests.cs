using System.CommandLine;
using System.CommandLine.Help;
using Bridge.Station;

namespace Bridge.Cli.Tests;

public class UsageTests
{
    [Fact]
    public async Task Without_a_command_the_help_is_shown_as_an_error()
    {
        var ran = await InProcess.Run();
        Assert.Equal(2, ran.ExitCode);
        Assert.Empty(ran.Output);
        Assert.All(new[] { "plan", "check", "show", "run", "ports", "demo" }, command => Assert.Contains($"  {command}", ran.Error));
    }

    [Theory]
    [InlineData("fly", "fly")]
    [InlineData("plan", "--machine", "SHAPE")]
    [InlineData("plan a.txt b.txt --machine m.toml", "b.txt", "bridge plan SHAPE --machine FILE")]
    [InlineData("plan a.txt --machine", "--machine")]
    [InlineData("plan a.txt --machine m.toml --machine n.toml", "--machine")]
    [InlineData("plan a.png --machine m.toml --threshold 300", "--threshold: found 300; allowed: 0 to 255.")]
    [InlineData("plan a.png --machine m.toml --threshold -1", "--threshold: found -1")]
    [InlineData("plan a.png --machine m.toml --threshold 1e2", "--threshold: found 1e2")]
    [InlineData("plan a.png --machine m.toml --dither yes", "yes")]
    [InlineData("check a.job --machine m.toml --json=1", "1")]
    [InlineData("show a.job --raw", "--raw", "--machine")]
    [InlineData("plan a.txt --machine m.toml --height zzz", "--height: found zzz; allowed: cells, as in 40")]
    [InlineData("plan a.txt --machine m.toml --text", "--text: found nothing after it; allowed: WORDS.")]
    [InlineData("trace a.job --machine m.toml --out a.vcd --device foo", "--device: found foo; allowed: interpreter or mock")]
    [InlineData("calibrate repeat", "--readings: found nothing; allowed: MM...", "bridge calibrate repeat --help tells more.")]
    [InlineData("calibrate", "calibrate: found nothing after it; allowed: one of pattern, scale, ")]
    [InlineData("run a.job --machine m.toml --seed x", "--seed: found x; allowed: 0 to 2147483647.")]
    [InlineData("run a.job --machine m.toml --faults nonsense", "nonsense", "drop")]
    [InlineData("run a.job --machine m.toml --faults drop=2", "--faults, drop", "from 0 to 1")]
    [InlineData("run a.job --machine m.toml --device /dev/ttyACM0 --fast", "--fast", "mock")]
    [InlineData("run a.job --machine m.toml --device /dev/ttyACM0 --faults drop=0.1", "--faults", "mock")]
    [InlineData("run a.job --machine m.toml --device COM3 --seed 2", "--seed", "mock")]
    public async Task A_wrong_command_line_is_answered_with_its_usage(string words, params string[] told)
    {
        var ran = await InProcess.Run(words.Split(' '));
        Assert.All(told, ran.AssertMisused);
    }

    [Fact]
    public async Task Each_option_of_each_command_without_its_value_and_with_two_is_answered_in_words()
    {
        var root = Program.Root(new Report(new OutputWriter(TextWriter.Null), TextWriter.Null), StationPins.Open);
        var commands = root.Subcommands.SelectMany(CommandsOf).ToList();
        Assert.True(commands.Count > 25);
        foreach (var (words, command) in commands)
            foreach (var option in command.Options.Where(option => option is not HelpOption && option.Arity.MaximumNumberOfValues > 0))
                foreach (var given in new string[][] { [option.Name], [option.Name, "", option.Name, ""] })
                {
                    var ran = await InProcess.Run([.. words, .. given]);
                    Assert.True(ran.ExitCode == 2, $"{string.Join(' ', words)} {string.Join(' ', given)}: {ran.ExitCode}: {ran.Error}{ran.Output}");
                    Assert.All(ran.ErrorLines, line => Assert.True(line.Contains(": found ", StringComparison.Ordinal) || line.StartsWith("Usage: bridge ")
                        || line.EndsWith("--help tells more.") || line.StartsWith("  - "), line));
                }
    }

    private static IEnumerable<(string[] Words, Command Command)> CommandsOf(Command command) => command.Subcommands.Count == 0
        ? [([command.Name], command)]
        : command.Subcommands.Select(sub => ((string[])[command.Name, sub.Name], sub));

    [Theory]
    [InlineData("plna", "For plna: was plan meant?")] // exchanged
    [InlineData("plan a.txt --machne m.toml", "For --machne: was --machine meant?")] // missing
    [InlineData("helth --machine m.toml", "For helth: was health meant?")]
    [InlineData("run a.job --mahcine m.toml", "For --mahcine: was --machine meant?")]
    public async Task A_word_that_is_nearly_right_is_answered_with_the_right_one(string words, string told) =>
        (await InProcess.Run(words.Split(' '))).AssertMisused(told);

    [Theory]
    [InlineData("fly")]
    [InlineData("x")]
    [InlineData("plan a.txt --machine m.toml --colour red")]
    public async Task A_word_that_is_far_from_any_is_answered_with_none(string words) =>
        Assert.DoesNotContain("meant?", (await InProcess.Run(words.Split(' '))).Error);

    [Fact]
    public async Task An_empty_name_is_no_file()
    {
        (await InProcess.Run("plan", "", "--machine", "m.toml")).AssertMisused("SHAPE: found an empty name");
        (await InProcess.Run("plan", "a.txt", "--machine", "")).AssertMisused("--machine: found an empty name");
        (await InProcess.Run("demo", "--runs", "")).AssertMisused("--runs: found an empty name");
    }

    [Fact]
    public async Task A_name_that_begins_with_an_at_sign_is_a_name() =>
        (await InProcess.Run("show", "@kite.job")).AssertRefused("@kite.job: found no such file");

    [Theory]
    [InlineData("plan")]
    [InlineData("check")]
    [InlineData("show")]
    [InlineData("run")]
    [InlineData("ports")]
    [InlineData("demo")]
    public async Task The_help_of_every_command_ends_with_an_example(string command)
    {
        var ran = await InProcess.Run(command, "--help");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Example", ran.Output);
        Assert.Contains($"  bridge {command}", ran.Output);
        Assert.DoesNotContain("System.", ran.Output);
    }

    [Fact]
    public async Task Help_is_given_whatever_else_is_wrong() =>
        Assert.Equal(0, (await InProcess.Run("plan", "a", "b", "--threshold", "x", "--help")).ExitCode);
}
