namespace Bridge.Cli.Tests;

/// <summary>The program in this process, its output kept.</summary>
internal static class InProcess
{
    public static async Task<Ran> Run(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await Program.RunAsync(args, new Report(new OutputWriter(TextWriter.Synchronized(output)), TextWriter.Synchronized(error)));
        return new Ran(code, output.ToString(), error.ToString());
    }
}

/// <summary>What a run of the program left.</summary>
internal sealed record Ran(int ExitCode, string Output, string Error)
{
    public string[] ErrorLines => Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Refused with exit code 1: each line of the error output says place, found, allowed and action; no trace of the code.</summary>
    public void AssertRefused(string word)
    {
        Assert.True(ExitCode == 1, $"{ExitCode}: {Error}{Output}");
        Assert.NotEmpty(ErrorLines);
        Assert.All(ErrorLines, line => Assert.Matches("^Refused: .+: found .+; allowed: .+\\. .+[.:?]$|^  - .+\\.$", line));
        Assert.Contains(word, Error);
        Assert.DoesNotContain("   at ", Error);
    }

    /// <summary>Misused with exit code 2: what is wrong, then the usage.</summary>
    public void AssertMisused(string word)
    {
        Assert.True(ExitCode == 2, $"{ExitCode}: {Error}{Output}");
        Assert.Empty(Output);
        Assert.Contains(word, Error);
        Assert.Contains("Usage: bridge", Error);
        Assert.DoesNotContain("System.", Error);
    }
}
