namespace Bridge.Wire.Tests;

public class Fcs16Tests
{
    public static TheoryData<string, string, string> Golden => Vectors.Columns("fcs.txt");

    [Theory]
    [MemberData(nameof(Golden))]
    public void The_check_sequence_is_the_golden_one(string name, string octets, string expected) =>
        Assert.Equal((name, Convert.ToUInt16(expected, 16)), (name, Fcs16.Of(Vectors.Hex(octets))));

    // CRC catalogue (reveng): CRC-16/IBM-SDLC, check=0x906e.
    [Fact]
    public void The_check_value_is_that_of_the_catalogue() =>
        Assert.Equal(0x906E, Fcs16.Of("123456789"u8));

    // CRC catalogue: residue=0xf0b8. RFC 1662, appendix C.2: the complement is sent low octet first.
    [Fact]
    public void Octets_with_their_check_sequence_low_octet_first_leave_the_good_residue()
    {
        byte[] sent = [.. "123456789"u8, 0x6E, 0x90];
        Assert.Equal(0xF0B8, sent.Aggregate(Fcs16.Initial, Fcs16.Update));
        Assert.True(Fcs16.IsGood(sent));
    }

    // The CRC catalogue's check values of CRC-16/MCRF4XX, KERMIT, IBM-3740 and XMODEM, and ours with its octets swapped.
    [Theory]
    [InlineData(0x6F91)]
    [InlineData(0x2189)]
    [InlineData(0x29B1)]
    [InlineData(0x31C3)]
    [InlineData(0x6E90)]
    public void A_sibling_check_sequence_is_not_good(int sibling)
    {
        byte[] sent = [.. "123456789"u8, (byte)sibling, (byte)(sibling >> 8)];
        Assert.False(Fcs16.IsGood(sent));
    }

    // A generator with the factor x+1 and a term 1 catches every single, double (within 32751 bits) and odd error: Koopman's 0x8810.
    [Fact]
    public void Every_one_and_two_bit_error_in_a_longest_frame_is_caught()
    {
        byte[] sent = [.. Enumerable.Range(0, 62).Select(i => (byte)(i * 37))];
        var fcs = Fcs16.Of(sent);
        sent = [.. sent, (byte)fcs, (byte)(fcs >> 8)];
        for (var first = 0; first < sent.Length * 8; first++)
        {
            Flip(sent, first);
            Assert.False(Fcs16.IsGood(sent));
            for (var second = 0; second < first; second++)
            {
                Flip(sent, second);
                if (Fcs16.IsGood(sent))
                    Assert.Fail($"bits {first} and {second}");
                Flip(sent, second);
            }
            Flip(sent, first);
        }
    }

    private static void Flip(byte[] octets, int bit) => octets[bit / 8] ^= (byte)(1 << bit % 8);
}
