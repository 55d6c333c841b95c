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
}
