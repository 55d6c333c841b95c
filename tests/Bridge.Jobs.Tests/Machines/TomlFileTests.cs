namespace Bridge.Jobs.Tests;

public class TomlFileTests
{
    [Fact]
    public void A_file_without_mistakes_is_read() => Assert.Single(TomlFile.Parse("a = 1\n", "pins.toml", "Mend it.").KeyValues);

    [Theory]
    [InlineData("a = 1\nb == 2\nc = 3\n", "pins.toml:2", "\"b == 2\"")]
    [InlineData("a = 1\na = 2\nc = 3\n", "pins.toml:2", "\"a = 2\"")]
    public void The_first_line_that_is_wrong_is_refused(string text, string place, string found)
    {
        var refusal = Assert.Throws<RefusedException>(() => TomlFile.Parse(text, "pins.toml", "Mend it.")).Refusals[0];
        Assert.Equal(new Refusal(place, found, "TOML: key = value, [table], or # and a comment; each name once", "Mend it."), refusal);
    }

    [Fact]
    public void Lists_nested_too_deep_are_refused()
    {
        var text = "a = " + new string('[', 100) + new string(']', 100) + "\n";
        var refusal = Assert.Throws<RefusedException>(() => TomlFile.Parse(text, "pins.toml", "Mend it.")).Refusals[0];
        Assert.Equal(("pins.toml", "lists and tables in lists and tables, at most 64 deep", "Mend it."),
            (refusal.Place, refusal.Allowed, refusal.Action));
    }
}
