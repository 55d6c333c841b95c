using Bridge.Jobs;
using CsCheck;

namespace Bridge.Layouts.Tests;

public class LayoutFileTests
{
    [Fact]
    public void The_built_in_layout_names_the_built_in_bits()
    {
        var layout = Layouts.Parse(Layouts.BuiltIn);
        var row = layout.VerbOf(0x401204)!; // JOB-FORMAT.md: five cells from (1, 2) along +X
        Assert.Equal((LayoutAct.Row, 1, 2, 5),
            (row.Act, row.Read(LayoutRole.X, 0x401204), row.Read(LayoutRole.Y, 0x401204), layout.Count(row, LayoutRole.Count, 0x401204)));
        Assert.Null(layout.VerbOf(0xFFFFFF));
        Assert.Null(layout.VerbOf(0x120000)); // go with a heading
    }

    [Theory]
    [InlineData("high", "high_first", 0b1010_0000_0000_0000, 0b101)]
    [InlineData("high", "low_first", 0b1100_0000_0000_0000, 0b011)]
    [InlineData("low", "high_first", 0b0000_0110_0000_0000, 0b011)]
    [InlineData("low", "low_first", 0b0000_0110_0000_0000, 0b110)]
    public void Bits_are_counted_and_ordered_as_the_file_says(string first, string order, int word, int number)
    {
        var layout = Layouts.Parse($$"""
            {{Layouts.Top}}
            first_bit = "{{first}}"
            [fields]
            op = { place = 0, width = 3, order = "{{order}}" }
            [verbs.end]
            """);
        Assert.Equal(number, layout.Fields[0].Read((ulong)word));
        Assert.Equal((ulong)word, layout.Fields[0].Write(number));
    }

    [Fact]
    public void An_inverted_field_across_two_bytes_reads_what_it_wrote() => Gen.Int[0, 63].Sample(number =>
    {
        var layout = Layouts.Parse(Layouts.Top + "[fields]\nf = { place = 5, width = 6, inverted = true }\n[verbs.end]\n");
        Assert.Equal(number, layout.Fields[0].Read(layout.Fields[0].Write(number)));
        Assert.Equal(0x07E0UL, layout.Fields[0].Write(0));
    });

    [Theory]
    [InlineData("verb    = { place = 0, width = 3 }", "verb = { place = 0, width = 4 }",
        "own.toml:12:13 fields.head: found a bit of the field verb; allowed: bits that no other field has")]
    [InlineData("q       = { place = 20, width = 4 }", "q = { place = 22, width = 4 }",
        "own.toml:18:19 fields.q.width: found 4 bits from place 22; allowed: up to 2: a record has 24")]
    [InlineData("q       = { place = 20, width = 4 }", "", "found the field \"q\", which is not there; allowed: verb, head, heading, rise, x, y, p")]
    [InlineData("x = \"x\"", "x = \"verb\"", "found the field verb twice")]
    [InlineData("when = { verb = 1 }", "when = { verb = 2 }", "found records that may be those of go too")]
    [InlineData("when = { verb = 1 }", "when = { verb = 8 }", "verbs.go.when.verb: found 8; allowed: integer, 0 to 7")]
    [InlineData("positions_x = 16", "positions_x = 17", "verbs.go.x: found 4 bits, which name 16 places; allowed: at least 5 bits for 17 places")]
    [InlineData("[verbs.end]\nwhen = { verb = 0 }", "", "verbs: found no end; allowed: a verb that ends a job")]
    [InlineData("[verbs.patch]", "[verbs.pach]", "verbs.pach.does: found no such key; allowed: \"end\", \"go\"")]
    [InlineData("size_x = \"p\"", "", "verbs.patch.size_x: found no such key")]
    [InlineData("reach = [\"x\", \"y\"]", "reach = [\"x\", \"y\"]\nhead = \"head\"",
        "verbs.again.head: found what a again does not say; allowed: reach, times")]
    [InlineData("moves = \"absolute\"", "moves = \"sideways\"", "moves: found \"sideways\"; allowed: \"absolute\" or \"relative\"")]
    [InlineData("moves = \"absolute\"", "moves = \"absolute\"\nheadings = [0, 0]", "headings: found [0, 0]; allowed: a list of 1 to 8 headings")]
    [InlineData("record_bytes = 3", "record_bytes = 9", "record_bytes: found 9; allowed: integer, 1 to 8 bytes")]
    [InlineData("head = \"head\"", "haed = \"head\"", "verbs.go.haed: found a key that is not known")]
    [InlineData("head = \"head\"", "head = 2", "verbs.go.head: found 2; allowed: 0 to 1")]
    [InlineData("[verbs.hold]", "[words.hold]", "words.hold: found a table that is not known")]
    public void A_mistake_is_named_with_its_line_its_key_what_was_found_and_what_is_allowed(string good, string bad, string message)
    {
        var text = Layouts.BuiltIn;
        var at = text.IndexOf(good, StringComparison.Ordinal);
        Assert.True(at >= 0);
        var refusals = Layouts.Refusals(text[..at] + bad + text[(at + good.Length)..]);
        Assert.Contains(refusals, refusal => refusal.ToString().Contains(message, StringComparison.Ordinal));
        Assert.All(refusals, refusal => Assert.Matches(@"^own\.toml:\d+:\d+", refusal.Place));
    }

    [Fact]
    public void Random_damage_gives_a_layout_or_a_refusal() =>
        Gen.Select(Gen.Int[0, Layouts.BuiltIn.Length - 1], Gen.Char[' ', '~'], Gen.Int[0, 40]).Sample((at, letter, cut) =>
    {
        var text = Layouts.BuiltIn.Remove(at, Math.Min(cut, Layouts.BuiltIn.Length - at)).Insert(at, $"{letter}");
        try
        {
            return Layouts.Parse(text).Verbs.Count > 0;
        }
        catch (RefusedException refused)
        {
            return refused.Refusals.Count > 0;
        }
    });

    [Fact]
    public void The_page_on_layouts_names_every_act_and_every_role()
    {
        var page = File.ReadAllText(Examples.PathOf("layouts", "README.md"));
        Assert.All(LayoutActs.ByName.Keys, act => Assert.Contains($"\n| `{act}` | ", page));
        Assert.All(Enum.GetValues<LayoutRole>().Select(LayoutActs.NameOf), role => Assert.Contains($"`{role}`", page));
    }
}
