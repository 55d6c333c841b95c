using System.Text.RegularExpressions;

namespace Bridge.Cli.Tests;

/// <summary>Every command in README.md is run as it stands there, in order, and ends as the page says.</summary>
public sealed partial class ReadmeTests : IDisposable
{
    // The page says that this one is stopped by the e-stop.
    private const string Aborting = "--faults estop-at=5";

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Every_command_of_the_page_does_what_the_page_says()
    {
        var blocks = Blocks(await File.ReadAllTextAsync(Path.Combine(Vectors.Root, "README.md"))).ToList();
        foreach (var block in blocks)
            if (FileName().Match(block) is { Success: true } named)
                _folder.Write(named.Groups[1].Value, block);
        CopyExamples();

        var commands = blocks.SelectMany(block => block.Split('\n')).Where(line => line.StartsWith("./bridge ")).Select(Words).ToList();
        Assert.True(commands.Count >= 7);
        Assert.Equal(
            [
                "calibrate", "check", "demo", "explain", "heads", "health", "inputs", "lesson", "logic", "move", "plan", "reference", "run", "runs", "sheet",
                "show", "step", "trace",
            ],
            commands.Select(words => words[0]).Distinct().Order());
        foreach (var words in commands)
        {
            var ran = await BridgeProcess.Run(_folder.Path, words);
            var line = string.Join(' ', words);
            Assert.True(ran.ExitCode == (line.Contains(Aborting) ? 4 : 0), $"{line}: {ran.ExitCode} {ran.Output}{ran.Error}");
        }

        Assert.Contains(commands, words => string.Join(' ', words).Contains(Aborting));
        Assert.NotEmpty(Directory.GetFiles(_folder.In("pictures")));
    }

    [Fact]
    public async Task The_page_names_every_exit_code()
    {
        var page = await File.ReadAllTextAsync(Path.Combine(Vectors.Root, "README.md"));
        foreach (var code in typeof(ExitCode).GetFields().Select(field => (int)field.GetRawConstantValue()!))
            Assert.Contains($"\n| {code} | ", page);
    }

    // A block is lines that begin with four spaces, and blank lines between them.
    private static IEnumerable<string> Blocks(string page) =>
        BlockLines().Matches(page.ReplaceLineEndings("\n")).Select(block =>
            string.Concat(block.Value.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line[4..] + "\n")));

    private static string[] Words(string line) => line["./bridge ".Length..].Split('#')[0].Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private void CopyExamples()
    {
        foreach (var kind in new[] { "layouts", "machines", "shapes" })
        {
            Directory.CreateDirectory(_folder.In($"examples/{kind}"));
            foreach (var file in Directory.GetFiles(Path.Combine(Vectors.Root, "examples", kind)))
                File.Copy(file, _folder.In($"examples/{kind}/{Path.GetFileName(file)}"));
        }
    }

    [GeneratedRegex(@"(?:^    .*\n)+", RegexOptions.Multiline)]
    private static partial Regex BlockLines();

    [GeneratedRegex(@"^# (\S+\.txt)\n")]
    private static partial Regex FileName();
}
