namespace Bridge.Wire.Tests;

public class SerialNumberTests
{
    [Fact]
    public void Order_is_that_of_the_golden_vectors()
    {
        foreach (var row in Vectors.Read("serial-compare.txt"))
        {
            int? expected = row[2] switch { "earlier" => -1, "equal" => 0, "later" => 1, _ => null };
            Assert.Equal((row[0], row[1], expected), (row[0], row[1], SerialNumber.Compare(byte.Parse(row[0]), byte.Parse(row[1]))));
        }
    }

    // RFC 1982, section 3.2, written as it defines "less than" and "greater than".
    [Fact]
    public void Order_is_that_of_the_definition_for_every_pair()
    {
        for (var i1 = 0; i1 < 256; i1++)
            for (var i2 = 0; i2 < 256; i2++)
            {
                var less = (i1 < i2 && i2 - i1 < 128) || (i1 > i2 && i1 - i2 > 128);
                var greater = (i1 < i2 && i2 - i1 > 128) || (i1 > i2 && i1 - i2 < 128);
                int? expected = i1 == i2 ? 0 : less ? -1 : greater ? 1 : null;
                Assert.Equal(expected, SerialNumber.Compare((byte)i1, (byte)i2));
            }
    }

    // RFC 1982, section 5.2 (from memory).
    [Theory]
    [InlineData(255, 1, 0)]
    [InlineData(100, 100, 200)]
    [InlineData(200, 100, 44)]
    public void Sums_are_those_of_the_rfc(byte number, int step, byte sum) =>
        Assert.Equal(sum, SerialNumber.Add(number, step));

    [Theory]
    [InlineData(-1)]
    [InlineData(128)]
    public void A_step_of_half_the_circle_or_back_is_our_own_mistake(int step) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SerialNumber.Add(0, step));
}
