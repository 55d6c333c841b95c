namespace Bridge.Jobs.Tests;

public class RecordWidthTests
{
    [Theory]
    [InlineData(4, 3, 16, 255)]
    [InlineData(8, 5, 256, 65_535)]
    [InlineData(12, 7, 4096, 16_777_215)]
    public void A_width_gives_bytes_places_and_the_largest_pair(int bits, int bytes, int places, int pair)
    {
        Assert.True(RecordWidth.TryFrom(bits, out var width));
        Assert.Equal((bits, bytes, places, pair), (width.AxisBits, width.Bytes, width.Places, width.LargestPair));
        Assert.Contains(width, RecordWidth.All);
    }

    [Fact]
    public void Every_other_number_of_bits_is_none()
    {
        Assert.Equal([4, 8, 12], Enumerable.Range(-1, 40).Where(bits => RecordWidth.TryFrom(bits, out _)));
        Assert.Equal([RecordWidth.Four, RecordWidth.Eight, RecordWidth.Twelve], RecordWidth.All);
    }
}
