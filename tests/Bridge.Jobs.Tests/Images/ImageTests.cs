namespace Bridge.Jobs.Tests;

public class ImageTests
{
    private static readonly byte[] RowAndEnd = [0x40, 0x12, 0x04, 0, 0, 0];

    [Theory]
    [InlineData(0x00)]
    [InlineData(0xFF)]
    public void A_store_is_read_up_to_its_end_and_blank_memory_behind_it_is_left_out(byte blank)
    {
        byte[] store = [.. RowAndEnd, .. Enumerable.Repeat(blank, 250)];
        var image = Image.Parse(RecordWidth.Four, store, "store");
        Assert.Equal(RowAndEnd, image.Bytes.ToArray());
        Assert.Equal(2, image.Count);
        Assert.True(image.HasEnd);
    }

    [Fact]
    public void A_store_full_to_its_last_whole_record_needs_no_end()
    {
        var store = new byte[256];
        for (var at = 0; at < 255; at++)
            store[at] = RowAndEnd[at % 3];
        var image = Image.Parse(RecordWidth.Four, store, "store");
        Assert.Equal(85, image.Count);
        Assert.False(image.HasEnd);
    }

    [Theory]
    [InlineData("", "empty or cut short")]
    [InlineData("4012", "empty or cut short")]
    [InlineData("40120401", "byte 3: found 1 bytes that are not blank")]
    [InlineData("401204000000401204", "byte 6: found 3 bytes that are not blank")]
    [InlineData("00000000FF", "byte 3: found 2 bytes that are not blank")]
    public void What_is_cut_short_or_has_something_behind_its_end_is_refused(string hex, string reason)
    {
        var refused = Assert.Throws<RefusedException>(() => Image.Parse(RecordWidth.Four, Convert.FromHexString(hex), "store"));
        Assert.Contains(reason, refused.Message);
    }

    [Fact]
    public void More_than_16_MiB_are_refused() =>
        Assert.Contains("up to 16777216 bytes",
            Assert.Throws<RefusedException>(() => Image.Parse(RecordWidth.Four, new byte[Image.LargestBytes + 1], "store")).Message);

    [Fact]
    public void Sixteen_MiB_are_still_read() => Assert.Equal(1, Image.Parse(RecordWidth.Four, new byte[Image.LargestBytes], "store").Count);

    [Theory]
    [InlineData("4012", "store: found 2 bytes; allowed: at least one record of 3 bytes. The image is empty or cut short: write it again.")]
    [InlineData("40120401", "store, byte 3: found 1 bytes that are not blank; allowed: whole records of 3 bytes, and only 00 or only FF behind the end. "
        + "The image is cut short, has something behind its end, or is of another width or of a layout: give the right file.")]
    [InlineData("00000000FF00", "store, byte 3: found 3 bytes that are not blank")]
    public void A_refusal_says_where_what_may_stand_there_and_what_to_do(string hex, string words) =>
        Assert.Contains(words, Assert.Throws<RefusedException>(() => Image.Parse(RecordWidth.Four, Convert.FromHexString(hex), "store")).Message);

    [Fact]
    public void A_store_that_is_too_large_is_asked_after() =>
        Assert.Contains("store: found 16777217 bytes; allowed: up to 16777216 bytes. Is this the right file?",
        Assert.Throws<RefusedException>(() => Image.Parse(RecordWidth.Four, new byte[Image.LargestBytes + 1], "store")).Message);

    [Fact]
    public void Part_of_a_record_that_is_blank_is_left_out()
    {
        Assert.Equal(1, Image.Parse(RecordWidth.Four, [0x40, 0x12, 0x04, 0xFF], "store").Count);
        Assert.Equal(1, Image.Parse(RecordWidth.Four, [0x40, 0x12, 0x04, 0, 0], "store").Count);
    }

    [Fact]
    public void Records_stand_in_the_image_one_behind_the_other_in_each_width() => Assert.All(RecordWidth.All, width =>
    {
        Record[] records = [Record.Go(Head.B, new Cell(3, 4)), Record.Row(width, Head.A, new Cell(1, 2), 3, 7, rise: true), Record.End];
        var image = Image.Of(width, records);
        Assert.Equal((3, 3 * width.Bytes, true), (image.Count, image.Bytes.Length, image.HasEnd));
        Assert.Equal(records, Enumerable.Range(0, 3).Select(index => image[index]));
    });
}
