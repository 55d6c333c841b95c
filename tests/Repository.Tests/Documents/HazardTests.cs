using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>What the safety pages say of a control names a test that shows it, and that test exists.</summary>
public partial class HazardTests
{
    private const string Hazards = "safety/HAZARDS.md";
    private const string Stops = "safety/STOPS.md";
    private const string NotShown = "not shown by a test: ";
    private const int LeastHazards = 30;
    private const int LeastStops = 15;

    private static readonly HashSet<string> Tests = [.. TestNames()];

    [Theory]
    [InlineData(Hazards, LeastHazards)]
    [InlineData(Stops, LeastStops)]
    public void Every_row_is_shown_by_a_test_that_exists_or_says_that_none_can(string page, int leastRows)
    {
        Findings.AssertNone(Mistakes(page, Checkout.Read(page)));
        Assert.True(Rows(Checkout.Read(page)).Count() >= leastRows);
    }

    [Theory]
    [InlineData("`No_such_test_exists`", "No_such_test_exists")]
    [InlineData("`no_such_test_exists`, `after_any_reset_nothing_moves`", "no_such_test_exists")]
    [InlineData("a look at it", "a look at it")]
    [InlineData("not shown by a test: ", "not shown by a test:")]
    public void A_hazard_without_its_test_is_seen(string shown, string mistake) => Assert.Equal(
        [$"PAGE.md: it moves: {mistake}"],
        Mistakes("PAGE.md", $"| hazard | shown by |\n| --- | --- |\n| it moves | {shown} |\n"));

    private static IEnumerable<string> Mistakes(string page, string text)
    {
        foreach (var (hazard, shown) in Rows(text))
        {
            var names = Name().Matches(shown).Select(match => match.Groups["name"].Value).ToArray();
            if (names.Length == 0 && !(shown.StartsWith(NotShown, StringComparison.Ordinal) && shown.Length > NotShown.Length))
                yield return $"{page}: {hazard}: {shown}";
            foreach (var name in names.Where(name => !Tests.Contains(name)))
                yield return $"{page}: {hazard}: {name}";
        }
    }

    // The first and the last cell of each row of the tables whose last column says what shows the control.
    private static IEnumerable<(string Hazard, string Shown)> Rows(string text)
    {
        var isTable = false;
        foreach (var line in text.Split('\n'))
        {
            var cells = line.Split('|', StringSplitOptions.TrimEntries);
            if (cells.Length < 4)
                isTable = false;
            else if (cells[^2] == "shown by")
                isTable = true;
            else if (isTable && !cells[1].StartsWith("---", StringComparison.Ordinal))
                yield return (cells[1], cells[^2]);
        }
    }

    private static IEnumerable<string> TestNames()
    {
        foreach (var path in Checkout.Under("tests", ".cs"))
            foreach (Match test in SharpTest().Matches(Checkout.Read(path)))
                yield return test.Groups["name"].Value;
        foreach (var path in Checkout.Under("firmware-protocol/reference/tests", ".c"))
            foreach (Match run in CTest().Matches(Checkout.Read(path)))
                yield return run.Groups["name"].Value;
    }

    [GeneratedRegex("`(?<name>[A-Za-z][A-Za-z0-9]*_[A-Za-z0-9_]+)`")]
    private static partial Regex Name();

    /// <summary>A method that an attribute of a test stands over; each line of attributes may end in a remark.</summary>
    [GeneratedRegex(@"\[\w*(?:Fact|Theory)\](?:\s*(?:\[|//)[^\n]*)*\s*public (?:async )?(?:Task|void) (?<name>\w+)\(")]
    private static partial Regex SharpTest();

    [GeneratedRegex(@"^    RUN\((?<name>\w+)\);", RegexOptions.Multiline)]
    private static partial Regex CTest();
}
