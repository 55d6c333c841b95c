namespace Repository.Tests;

/// <summary>Every link of a document leads somewhere.</summary>
public class LinkTests
{
    private static IEnumerable<string> Pages => Checkout.Files.Where(file => Path.GetExtension(file) == ".md");

    [Fact]
    public void Every_relative_link_leads_to_a_file_and_every_anchor_to_a_heading() =>
        Findings.AssertNone(Pages.SelectMany(page => Broken(page, Checkout.Read(page))));

    [Theory]
    [InlineData("[x](no-such-page.md)", "no-such-page.md")]
    [InlineData("[x](safety/cautions.md)", "safety/cautions.md")]
    [InlineData("[x](safety/CAUTIONS.md#no-such-heading)", "safety/CAUTIONS.md#no-such-heading")]
    [InlineData("# One\n[x](#two)", "#two")]
    [InlineData("![a picture](no-such-picture.png \"title\")", "no-such-picture.png")]
    [InlineData("See [x][1].\n\n[1]: no-such-page.md", "no-such-page.md")]
    [InlineData("[x](../outside.md)", "../outside.md")]
    public void A_broken_link_is_seen(string page, string link) => Assert.Equal([$"PAGE.md: {link}"], Broken("PAGE.md", page));

    [Theory]
    [InlineData("[x](safety/CAUTIONS.md#the-short-caution) [y](safety) [z](https://example.org/nothing)")]
    [InlineData("# What `end` does, twice\n# What end does, twice\n[x](#what-end-does-twice-1)")]
    [InlineData("`[x](no-such-page.md)`\n```\n[x](no-such-page.md)\n```")]
    public void A_link_that_leads_somewhere_or_is_code_is_not_called_broken(string page) => Findings.AssertNone(Broken("PAGE.md", page));

    private static IEnumerable<string> Broken(string path, string text)
    {
        var page = new MarkdownPage(text);
        return page.Links.Where(link => !Uri.TryCreate(link, UriKind.Absolute, out _) && !IsThere(path, page, link)).Select(link => $"{path}: {link}");
    }

    private static bool IsThere(string path, MarkdownPage page, string link)
    {
        var parts = Uri.UnescapeDataString(link).Split('#', 2);
        var target = parts[0].Length == 0 ? path : Resolve(path, parts[0]);
        var isFile = Checkout.Files.Contains(target) || target == path;
        if (parts.Length == 2)
            return isFile && (target == path ? page : new MarkdownPage(Checkout.Read(target))).Anchors.Contains(parts[1]);
        return isFile || Checkout.Files.Any(file => file.StartsWith(target.TrimEnd('/') + "/", StringComparison.Ordinal));
    }

    private static string Resolve(string path, string link) => Path.GetRelativePath(Vectors.Root,
        Path.GetFullPath(Path.Combine(Vectors.Root, Path.GetDirectoryName(path)!, link))).Replace('\\', '/');
}
