namespace Bridge.Layouts.Tests;

public class CheckDigitTests
{
    // By hand, with powers of 2 in the field of 16: 1·2 = 2; 8·2 = 16 = 3; (1·2 + 1)·2 = 6.
    [Theory]
    [InlineData(new[] { 1 }, 2)]
    [InlineData(new[] { 8 }, 3)]
    [InlineData(new[] { 1, 1 }, 6)]
    [InlineData(new[] { 0, 0, 0 }, 0)]
    public void The_digit_is_the_weighted_sum_in_the_field(int[] digits, int check) => Assert.Equal(check, CheckDigit.Of(digits));

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(8)]
    public void Every_wrong_bit_and_every_exchange_of_neighbours_shows(int recordBytes)
    {
        var random = new Random(recordBytes);
        for (var trial = 0; trial < 2000; trial++)
        {
            var address = random.Next(65_536);
            var row = new byte[recordBytes];
            random.NextBytes(row);
            var check = CheckDigit.Of(address, row);
            for (var bit = 0; bit < 8 * recordBytes; bit++)
            {
                AssertShows(Changed(row, bit));
                if (bit > 0 && Bit(row, bit) != Bit(row, bit - 1))
                    AssertShows(Changed(row, bit - 1, bit));
            }
            for (var digit = 1; digit < 2 * recordBytes; digit++)
                if (Digit(row, digit) != Digit(row, digit - 1))
                    AssertShows(Exchanged(row, digit));
            for (var bit = 1; bit < 1 << 16; bit <<= 1)
                Assert.NotEqual(check, CheckDigit.Of(address ^ bit, row));

            void AssertShows(byte[] wrong) => Assert.NotEqual(check, CheckDigit.Of(address, wrong));
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(7)]
    public void A_row_typed_in_the_place_of_its_neighbour_shows(int recordBytes)
    {
        var row = new byte[recordBytes];
        for (var address = 0; address + recordBytes < 65_536; address += recordBytes)
            if ((address ^ (address + recordBytes)) is < 16 and > 0)
                Assert.NotEqual(CheckDigit.Of(address, row), CheckDigit.Of(address + recordBytes, row));
    }

    private static int Bit(byte[] row, int bit) => row[bit / 8] >> 7 - bit % 8 & 1;

    private static int Digit(byte[] row, int digit) => row[digit / 2] >> (digit % 2 == 0 ? 4 : 0) & 15;

    private static byte[] Changed(byte[] row, params int[] bits)
    {
        var changed = (byte[])row.Clone();
        foreach (var bit in bits)
            changed[bit / 8] ^= (byte)(0x80 >> bit % 8);
        return changed;
    }

    private static byte[] Exchanged(byte[] row, int digit)
    {
        var digits = Convert.ToHexString(row).ToCharArray();
        (digits[digit], digits[digit - 1]) = (digits[digit - 1], digits[digit]);
        return Convert.FromHexString(digits);
    }
}
