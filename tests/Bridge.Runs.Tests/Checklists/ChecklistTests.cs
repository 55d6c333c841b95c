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

    [Theory]
    [InlineData("format = 1", "format = \"1\"", "mine.toml: found no format, or another; allowed: format = 1. Mend it, or leave --checklist out")]
    [InlineData("format = 1", "format = 1\ncolour = 3", "mine.toml: found colour; allowed: format, item. ")]
    [InlineData("id = \"bed\"", "id = \"bed\"\ncolour = 3", "mine.toml: found item 1: colour; allowed: id, ask, why, each_time. ")]
    [InlineData("id = \"bed\"", "id = \"wires\"", "found id = \"wires\" twice; allowed: each id once. ")]
    [InlineData("id = \"bed\"", "id = 5", "found item 1: no good id; allowed: id = \"letters-digits-and-hyphens\". ")]
    [InlineData("ask = \"Is the bed clear?\"", "", "found item 1: no good ask; allowed: ask = \"1 to 200 characters in a line\". ")]
    [InlineData("why = \"They break.\"", "", "found item 2: no good why; allowed: why = \"1 to 200 characters in a line\". ")]
    [InlineData("each_time = false", "", "found item 2: no each_time; allowed: each_time = true or false. ")]
    [InlineData("each_time = true", "each_time = false", "found no item with each_time = true; allowed: at least one that is asked each time. ")]
    [InlineData("[[item]]", "[[items]]", "found items; allowed: format, item. ")]
    [InlineData("[[item]]", "[[item", "mine.toml:2: found \"[[item\"; allowed: TOML: key = value, [table], or # and a comment; each name once. Mend it")]
    public void A_refusal_says_what_was_found_what_is_allowed_and_what_to_do(string good, string bad, string words) =>
        Assert.Contains(words, Assert.Throws<RefusedException>(() => Checklist.Parse(Good.Replace("\r", "").Replace(good, bad), "mine.toml")).Message);

    [Fact]
    public void A_refusal_of_what_is_no_TOML_names_the_first_line_that_is_none()
    {
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => Checklist.Parse("format = 1\nitem = = 2\n= 3\n", "mine.toml")).Refusals);
        Assert.Equal(("mine.toml:2", "\"item = = 2\""), (refusal.Place, refusal.Found));
    }

    [Theory]
    [InlineData(1, 1, true)]
    [InlineData(40, 200, true)]
    [InlineData(0, 1, false)]
    [InlineData(41, 1, false)]
    [InlineData(1, 201, false)]
    public void Lengths_are_taken_up_to_their_limits_and_not_beyond(int ofId, int ofText, bool isTaken)
    {
        var list = ListOf(1, new string('a', ofId), new string('b', ofText));
        if (isTaken)
            Assert.Equal((ofId, ofText), (Checklist.Parse(list, "mine.toml").Items[0].Id.Length, Checklist.Parse(list, "mine.toml").Items[0].Why.Length));
        else
            Assert.Throws<RefusedException>(() => Checklist.Parse(list, "mine.toml"));
    }

    [Fact]
    public void Fifty_items_are_taken_and_one_more_is_not()
    {
        Assert.Equal(50, Checklist.Parse(ListOf(50, "id", "text"), "mine.toml").Items.Count);
        Assert.Contains("found no list of items, or too long a one; allowed: [[item]], 1 to 50 times. ",
            Assert.Throws<RefusedException>(() => Checklist.Parse(ListOf(51, "id", "text"), "mine.toml")).Message);
    }

    [Fact]
    public void An_id_may_be_of_letters_digits_and_hyphens() =>
        Assert.Equal("Bed-2", Checklist.Parse(Good.Replace("\"bed\"", "\"Bed-2\""), "mine.toml").Items[0].Id);

    [Fact]
    public void A_file_with_the_mark_of_UTF_8_before_it_is_the_same_list()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder.In("list.toml"), Good, new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
        Assert.Equal(Checklist.Parse(Good, "mine.toml").Digest, Checklist.Read(folder.In("list.toml")).Digest);
    }

    [Fact]
    public void A_file_of_just_the_most_octets_is_read()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder.In("list.toml"), Good + "\n#".PadRight(65_536 - Good.Length, '-'));
        Assert.Equal(65_536, new FileInfo(folder.In("list.toml")).Length);
        Assert.Equal(2, Checklist.Read(folder.In("list.toml")).Items.Count);
    }

    [Fact]
    public void Octets_that_are_no_text_are_refused_as_such()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.In("list.toml"), [0xFF, 0xFE, 0x00]);
        Assert.Contains("found octets that are no text; allowed: UTF-8 text",
            Assert.Throws<RefusedException>(() => Checklist.Read(folder.In("list.toml"))).Message);
    }

    [Fact]
    public void The_digest_of_a_list_is_the_SHA_256_of_its_text() => Assert.Equal(
        Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(Good))),
        Checklist.Parse(Good, "mine.toml").Digest);

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

    private static string ListOf(int items, string id, string text) => "format = 1\n" + string.Concat(Enumerable.Range(0, items)
        .Select(item => $"[[item]]\nid = \"{(items == 1 ? id : $"{id}-{item}")}\"\nask = \"{text}\"\nwhy = \"{text}\"\neach_time = true\n"));
}
