using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>The name of a test says what holds.</summary>
public partial class TestNameTests
{
    [Fact]
    public void The_name_of_a_test_is_a_sentence()
    {
        var tests = Checkout.Under("tests", ".cs").SelectMany(file => Names(Checkout.Read(file)).Select(name => $"{file}: {name}")).ToList();
        Assert.NotEmpty(tests);
        Findings.AssertNone(tests.Where(test => test.Count(letter => letter == '_') < 2));
    }

    [Fact]
    public void The_name_of_every_test_is_found()
    {
        var missed = Checkout.Under("tests", ".cs").Where(file => Names(Checkout.Read(file)).Count() != Attribute().Count(Checkout.Read(file)));
        Findings.AssertNone(missed);
    }

    private static IEnumerable<string> Names(string code) => Test().Matches(code).Select(match => match.Groups["name"].Value);

    [GeneratedRegex(@"^\s*\[\w*(?:Fact|Theory)\b", RegexOptions.Multiline)]
    private static partial Regex Attribute();

    /// <summary>The attribute, then others, each on a line or more of its own, then the method up to its bracket.</summary>
    [GeneratedRegex(@"^\s*\[\w*(?:Fact|Theory)\b.*?^\s*public\s+(?:[\w<>?]+\s+)*?[\w<>?]+\s+(?<name>\w+)\(", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Test();
}
