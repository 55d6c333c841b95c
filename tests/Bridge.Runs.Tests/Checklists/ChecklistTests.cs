using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class ChecklistTests
{
    private const string Good = """
        format = 1
        [[item]]
        id = "bed"
        ask = "Is the bed clear?"
        why = "It moves there."
        each_time = true
        [[item]]
        id = "wires"
        ask = "Are the wires whole?"
        why = "They break."
        each_time = false
        """;

    [Fact]
    public void The_programs_own_list_asks_all_and_in_short_what_is_asked_each_time()
    {
        var own = Checklist.Own;
        Assert.InRange(own.Asked(isShort: true).Count(), 1, own.Items.Count - 1);
        Assert.Equal(own.Items, own.Asked(isShort: false));
        Assert.Equal("e-stop", own.Items[0].Id);
    }

    [Fact]
    public void A_list_of_ones_own_is_read_in_its_order()
    {
        var list = Checklist.Parse(Good, "mine.toml");
        ChecklistItem[] items =
            [new("bed", "Is the bed clear?", "It moves there.", EachTime: true), new("wires", "Are the wires whole?", "They break.", EachTime: false)];
        Assert.Equal(items, list.Items);
        Assert.Equal(["bed"], list.Asked(isShort: true).Select(item => item.Id));
    }

    [Theory]
    [InlineData("format = 1", "format = 2", "format")]
    [InlineData("format = 1\n", "", "format")]
    [InlineData("format = 1", "format = 1\ncolour = 3", "colour")]
    [InlineData("id = \"bed\"", "id = \"wires\"", "twice")]
    [InlineData("id = \"bed\"", "id = \"b d\"", "item 1")]
    [InlineData("id = \"bed\"", "", "item 1")]
    [InlineData("ask = \"Is the bed clear?\"", "ask = \"\"", "item 1")]
    [InlineData("ask = \"Is the bed clear?\"", "ask = \"a\\u0007\"", "item 1")]
    [InlineData("why = \"It moves there.\"", "", "item 1")]
    [InlineData("why = \"They break.\"", "why = 1", "item 2")]
    [InlineData("each_time = true", "each_time = false", "each_time")]
    [InlineData("each_time = false", "each_time = 0", "item 2")]
    [InlineData("each_time = false", "each_time = false\nskip = true", "skip")]
    [InlineData("[[item]]", "[[item", "TOML")]
    public void A_mistake_is_refused_with_its_place(string good, string bad, string word)
    {
        var refused = Assert.Throws<RefusedException>(() => Checklist.Parse(Good.Replace("\r", "").Replace(good, bad), "mine.toml"));
        Assert.Contains(word, $"{Assert.Single(refused.Refusals)}");
    }

    [Fact]
    public void A_list_without_items_or_that_cannot_be_read_is_refused()
    {
        Assert.Throws<RefusedException>(() => Checklist.Parse("format = 1\n", "mine.toml"));
        Assert.Throws<RefusedException>(() => Checklist.Parse("format = 1\nitem = []\n", "mine.toml"));
        Assert.Throws<RefusedException>(() => Checklist.Read("no-such-list.toml"));
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.In("list.toml"), [0xFF, 0xFE, 0x00]);
        Assert.Contains("UTF-8", Assert.Throws<RefusedException>(() => Checklist.Read(folder.In("list.toml"))).Message);
        File.WriteAllBytes(folder.In("list.toml"), new byte[65_537]);
        Assert.Contains("65537 bytes", Assert.Throws<RefusedException>(() => Checklist.Read(folder.In("list.toml"))).Message);
    }

    [Fact]
    public void Another_text_is_another_list()
    {
        var list = Checklist.Parse(Good, "mine.toml");
        Assert.Equal(list.Digest, Checklist.Parse(Good, "yours.toml").Digest);
        Assert.NotEqual(list.Digest, Checklist.Parse(Good.Replace("whole", "sound"), "mine.toml").Digest);
    }

    [Fact]
    public void A_cut_list_is_refused_or_read_as_a_shorter_one_wherever_it_is_cut()
    {
        for (var length = 0; length < Good.Length; length++)
            try
            {
                Assert.InRange(Checklist.Parse(Good[..length], "mine.toml").Items.Count, 1, 2);
            }
            catch (RefusedException)
            {
                // so it should be
            }
    }
}
