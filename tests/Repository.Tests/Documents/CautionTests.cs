using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>The caution that the program prints is the one that people read.</summary>
public partial class CautionTests
{
    [Fact]
    public void The_short_caution_of_the_page_is_the_one_that_the_program_prints()
    {
        var written = Checkout.Lines("safety/CAUTIONS.md").SkipWhile(line => line != "## The short caution").Skip(1)
            .SkipWhile(line => line.Length == 0).TakeWhile(line => line.StartsWith("> ", StringComparison.Ordinal)).Select(line => line[2..]).ToArray();
        var printed = TextLiteral().Matches(Checkout.Read("src/Bridge.Cli/Output/Caution.cs")).Select(match => match.Groups["text"].Value);
        Assert.NotEmpty(written);
        Assert.Equal(written, printed);
    }

    [GeneratedRegex("""^\s*"(?<text>[^"\\]*)",\s*$""", RegexOptions.Multiline)]
    private static partial Regex TextLiteral();
}
