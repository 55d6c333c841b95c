using CsCheck;

namespace Bridge.Wire.Tests;

public class FrameEncoderTests
{
    private static readonly Gen<byte[]> AnyFrame = Gen.Byte.Array[3, 62];

    [Theory]
    [InlineData("shortest")]
    [InlineData("longest")]
    [InlineData("escapes")]
    [InlineData("escaped_fcs")]
    [InlineData("check_digits")]
    [InlineData("no_stop_in_data")]
    public void A_frame_becomes_the_golden_octets(string name)
    {
        var row = Vectors.Read("framing.txt").Single(row => row[0] == name);
        Assert.Equal(row[1], Convert.ToHexStringLower(Decoding.Encode(Vectors.Hex(row[2]["frame:".Length..]))));
    }

    // RFC 1662, section 4.2: 7E becomes 7D 5E and 7D becomes 7D 5D; 7F is ours.
    [Fact]
    public void Flag_escape_and_reserved_octet_are_escaped_and_nothing_else()
    {
        for (var octet = 0; octet < 256; octet++)
        {
            var line = Decoding.Encode([(byte)octet, 0, 0]);
            byte[] expected = octet switch { 0x7D => [0x7D, 0x5D], 0x7E => [0x7D, 0x5E], 0x7F => [0x7D, 0x5F], _ => [(byte)octet] };
            Assert.Equal(expected, line[1..(1 + expected.Length)]);
        }
    }

    [Fact]
    public void No_frame_holds_a_bare_7f_or_an_inner_flag() => AnyFrame.Sample(frame =>
    {
        var line = Decoding.Encode(frame);
        Assert.DoesNotContain((byte)0x7F, line);
        Assert.DoesNotContain((byte)0x7E, line[1..^1]);
        Assert.True(line[0] == 0x7E && line[^1] == 0x7E);
    }, seed: "0N0XIzNsQ0O2", iter: 2000);

    [Fact]
    public void A_frame_of_escapes_alone_fits_the_bound_on_the_line()
    {
        var worst = 0;
        foreach (var octet in new byte[] { 0x7D, 0x7E, 0x7F })
            worst = Math.Max(worst, Decoding.Encode(Enumerable.Repeat(octet, 62).ToArray()).Length);
        Assert.InRange(worst, 2 * 62 + 2 + 2, FrameFormat.MaxOnLine);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(63)]
    public void A_frame_outside_the_bounds_is_our_own_mistake(int length) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Decoding.Encode(new byte[length]));
}
