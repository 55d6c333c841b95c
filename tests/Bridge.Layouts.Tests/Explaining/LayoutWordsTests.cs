using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts.Tests;

public class LayoutWordsTests
{
    // Packed by hand from the fields of each file.
    [Theory]
    [InlineData("built-in-4.toml", 0x401204, "row: work 5 cells along +X, the first at (1, 2), with head a")]
    [InlineData("built-in-4.toml", 0x7BA331,
        "patch: up a layer, then work 4 x 2 cells from the corner at (10, 3), along Y first, X growing, Y falling, with head b")]
    [InlineData("built-in-4.toml", 0xA00104, "again: the last 2 records, 5 more times")]
    [InlineData("built-in-4.toml", 0xC00014, "wait: wait 2.0 s")]
    [InlineData("built-in-4.toml", 0xC20000, "hold: wait until the operator goes on")]
    [InlineData("built-in-4.toml", 0x301200, "go: go to (1, 2), with head b")]
    [InlineData("built-in-4.toml", 0x801200, "line: work in a straight line to (1, 2), with head a")]
    [InlineData("built-in-4.toml", 0x000000, "end: the job is complete")]
    [InlineData("built-in-4.toml", 0xFFFFFF, "none: the bits are no verb's")]
    [InlineData("rows-only.toml", 0x28030502, "row: work 3 cells along -X, the first at (3, 5)")]
    [InlineData("rows-only.toml", 0x40000000, "up: up a layer")]
    [InlineData("rows-only.toml", 0x70000000, "head: take head b")]
    [InlineData("relative-lines.toml", 0x4701, "row: work 2 cells along -X+Y, the first here, with head a")]
    [InlineData("relative-lines.toml", 0x2C04, "step_y: up a layer, then go 5 cells along -Y, with head a")]
    [InlineData("relative-lines.toml", 0xD101, "none: the bits are no verb's")]
    [InlineData("relative-lines.toml", 0x8000, "base: go to (0, 0), with head a")]
    [InlineData("one-byte", 0xC4, "column: go to x = 2")]
    [InlineData("one-byte", 0xDC, "line_of: go to y = 3")]
    public void A_record_is_said_in_words(string layout, long word, string words) =>
        Assert.Equal(words, LayoutWords.Meaning(Examples.Layout(layout), (ulong)word));

    [Theory]
    [InlineData("built-in-4.toml", 0x7BA331, "verb 011 3, head 1 b, heading 101 5, rise 1 up, x 1010 10, y 0011 3, p 0011 3, q 0001 1")]
    [InlineData("built-in-4.toml", 0x4F1204, "verb 010 2, head 0 a, heading 111 +X-Y, rise 1 up, x 0001 1, y 0010 2, p 0000 0, q 0100 4")]
    [InlineData("built-in-4.toml", 0xA00104, "verb 101 5, head 0 -, heading 000 -, rise 0 -, x 0000 0, y 0001 1, p 0000 0, q 0100 4")]
    [InlineData("rows-only.toml", 0x28030502, "verb 001 1, head 0 -, direction 10 -X, - 00 -, x 00000011 3, y 00000101 5, cells 00000010 2")]
    [InlineData("relative-lines.toml", 0x4701,
        "special 0 0, work 1 1, rise 0 -, head 0 a, falls_y 0 0, move_y 1 1, falls_x 1 1, move_x 1 1, cells 00000001 1")]
    public void The_bits_of_a_record_stand_under_the_names_of_the_layout_s_fields(string layout, long word, string fields) =>
        Assert.Equal(fields, string.Join(", ", LayoutBits.Of(Examples.Layout(layout), (ulong)word).Select(field => $"{field.Name} {field.Bits} {field.Says}")));

    [Theory]
    [InlineData("built-in-8.toml")]
    [InlineData("relative-lines.toml")]
    [InlineData("square-fills.toml")]
    [InlineData("one-byte")]
    public void Together_the_bits_are_those_of_the_bytes(string name)
    {
        var (layout, random) = (Examples.Layout(name), new Random(3));
        for (var round = 0; round < 200; round++)
        {
            var word = (ulong)random.NextInt64() & (1UL << 8 * layout.RecordBytes) - 1;
            Assert.Equal(word.ToString("b", CultureInfo.InvariantCulture).PadLeft(8 * layout.RecordBytes, '0'),
                string.Concat(LayoutBits.Of(layout, word).Select(field => field.Bits)));
        }
    }

    [Fact]
    public void A_translation_says_of_each_executed_record_where_it_comes_from()
    {
        var layout = Examples.Layout("built-in-4.toml");
        var image = LayoutImage.Of(layout, [0x411204, 0x401304, 0xA00101, 0x000000]); // the first two once more, then twice
        var translation = LayoutTranslation.Of(image, RecordWidth.Four, new Grid(16, 16, 16));
        Assert.Equal([0, 1, 0, 1, 0, 1], translation.Origins);
        Assert.Equal((7, null), (translation.Image.Count, translation.Fault));
        Assert.Equal(1, LayoutTranslation.Of(LayoutImage.Of(layout, [0x411204, 0x40F204]), RecordWidth.Four, new Grid(16, 16, 16)).Fault!.Index);
    }
}
