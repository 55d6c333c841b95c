namespace Repository.Tests;

/// <summary>The top of the repository is what a newcomer sees first.</summary>
public class TopLevelTests
{
    private static readonly string[] Expected =
    [
        "README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "Bridge.sln", "Directory.Build.props", "Directory.Packages.props", "bridge", "test",
        "src", "tests", "bench", "examples", "firmware-protocol", "safety",
    ];

    [Fact]
    public void The_top_holds_what_it_should_and_nothing_else() =>
        Assert.Equal(Expected.Order(StringComparer.Ordinal), Checkout.Top.Where(name => name[0] != '.').Order(StringComparer.Ordinal));
}
