using System.Text;
using Bridge.Jobs;

namespace Bridge.Layouts.Tests;

public class TypedSheetTests
{
    private static readonly byte[] Image = [0x40, 0x12, 0x04, 0x7B, 0xA3, 0x31, 0xA0, 0x01, 0x04, 0, 0, 0];

    [Fact]
    public void A_sheet_typed_in_as_bits_or_as_bytes_with_or_without_addresses_is_the_image()
    {
        Assert.Equal(Image, Read(string.Join('\n', Rows(bits: true))));
        Assert.Equal(Image, Read("# from paper\r\n\r\n" + string.Join("\r\n", Rows(bits: false))));
        Assert.Equal(Image, Read(string.Join('\n', Rows(bits: true).Select(row => row.Split(':')[1].ToLowerInvariant()))));
    }

    [Fact]
    public void Each_wrong_bit_and_each_exchange_of_neighbouring_bits_is_named_with_its_row()
    {
        var rows = Rows(bits: true);
        for (var row = 0; row < rows.Count; row++)
            for (var at = 6; at < rows[row].Length - 2; at++)
            {
                if (rows[row][at] == ' ')
                    continue;
                AssertNamed(row, With(rows, row, rows[row][..at] + (rows[row][at] == '0' ? '1' : '0') + rows[row][(at + 1)..]));
                var next = rows[row][at + 1] == ' ' ? at + 2 : at + 1;
                if (next < rows[row].Length - 2 && rows[row][at] != rows[row][next])
                {
                    var letters = rows[row].ToCharArray();
                    (letters[at], letters[next]) = (letters[next], letters[at]);
                    AssertNamed(row, With(rows, row, new string(letters)));
                }
            }
    }

    [Fact]
    public void What_would_make_a_wrong_row_right_is_told()
    {
        var rows = Rows(bits: true);
        var refusal = Assert.Single(Refusals(string.Join('\n', With(rows, 0, rows[0].Replace("00010010", "00010100", StringComparison.Ordinal)))));
        Assert.Contains("bits 14 and 15 exchanged", refusal.Action);
    }

    [Theory]
    [InlineData("0000: 40 12 04", "24 bits or 6 hexadecimal digits, then a check digit")]
    [InlineData("0000: 0100000 00010010 00000100 7", "24 bits")]
    [InlineData("0000: 4O 12 04 7", "24 bits")]
    [InlineData("0:0: 40 12 04 7", "24 bits")]
    [InlineData("", "a row for each record")]
    public void What_is_no_row_is_refused(string text, string allowed) => Assert.Contains(allowed, Refusals(text)[0].Allowed);

    [Fact]
    public void A_row_that_is_left_out_is_named_once_and_the_next_are_read_on()
    {
        var rows = Rows(bits: false);
        var missing = Assert.Single(Refusals(string.Join('\n', [rows[0], .. rows[2..]])));
        Assert.Equal(("typed.txt, row 2 (address 0003)", "Row 0003 is missing: type it in."), (missing.Place, missing.Action));
        Assert.Equal("row 0000 a second time", Assert.Single(Refusals(string.Join('\n', [rows[0], rows[0], .. rows[1..]]))).Found);
        Assert.Equal("the address 0005",
            Assert.Single(Refusals(string.Join('\n', With(rows, 1, rows[1].Replace("0003:", "0005:", StringComparison.Ordinal))))).Found);
    }

    [Fact]
    public void Rows_in_one_another_s_place_are_told_by_their_digits_without_guesses()
    {
        var rows = Rows(bits: true);
        var exchanged = With(rows, 1, rows[1][..5] + rows[2][5..]);
        exchanged[2] = rows[2][..5] + rows[1][5..];
        var refusals = Refusals(string.Join('\n', exchanged));
        Assert.Equal(2, refusals.Count);
        Assert.StartsWith("This is row 0006", refusals[0].Action);
        Assert.StartsWith("This is row 0003", refusals[1].Action);
        Assert.StartsWith("This is row 0006", Assert.Single(Refusals(string.Join('\n', With(rows, 1, rows[1][..5] + rows[2][5..])))).Action);
        Assert.DoesNotContain("one of these changed", string.Join(' ', refusals));
    }

    [Fact]
    public void Beside_the_job_the_very_bits_that_differ_are_named_also_where_a_digit_is_wrong()
    {
        var rows = Rows(bits: true);
        var wrong = With(rows, 0, rows[0].Replace("00010010", "00000011", StringComparison.Ordinal));
        wrong[3] = rows[3][..^1] + "5";
        var refusals = Refusals(string.Join('\n', wrong), Image);
        Assert.Equal(["row 1 (address 0000)", "row 4 (address 0009)"], refusals.Select(row => row.Place.Split(", ")[2]));
        Assert.Equal("01000000 00010010 00000100, as the job has it", refusals[0].Allowed);
        Assert.Contains("from the left: 12, 16.", refusals[0].Action);
        Assert.Contains("only the digit is wrong", refusals[1].Action);
    }

    [Fact]
    public void Rows_that_are_not_those_of_the_job_are_named()
    {
        var other = (byte[])Image.Clone();
        other[4] ^= 1;
        var rows = string.Join('\n', Rows(bits: true));
        Assert.Contains("from the left: 16.", Assert.Single(Refusals(rows, other)).Action);
        Assert.Equal("nothing", Assert.Single(Refusals(string.Join('\n', Rows(bits: true)[..3]), Image)).Found);
        Assert.Equal("nothing: the job has ended", Assert.Single(Refusals(rows, Image[..9])).Allowed);
        Assert.Equal(Image, TypedSheet.Parse(Encoding.UTF8.GetBytes(rows), "typed.txt", 3, Image));
    }

    [Fact]
    public void Rows_that_all_have_another_width_are_refused_once()
    {
        var refusal = Assert.Single(Refusals("0000: 01000000 00010010 7\n0002: 40 12 3\n"));
        Assert.Equal("16 bits in all rows", refusal.Found);
        Assert.StartsWith("24 bits", refusal.Allowed);
        Assert.Contains("Is --layout missing", refusal.Action);
    }

    private static void AssertNamed(int row, IReadOnlyList<string> rows) =>
        Assert.StartsWith($"typed.txt, line {row + 1}, row {row + 1} (address {3 * row:X4})", Assert.Single(Refusals(string.Join('\n', rows))).Place);

    private static string[] With(List<string> rows, int row, string text) => [.. rows.Select((known, index) => index == row ? text : known)];

    private static byte[] Read(string text) => TypedSheet.Parse(Encoding.UTF8.GetBytes(text), "typed.txt", 3);

    private static IReadOnlyList<Refusal> Refusals(string text, byte[]? job = null) =>
        Assert.Throws<RefusedException>(() => TypedSheet.Parse(Encoding.UTF8.GetBytes(text), "typed.txt", 3, job)).Refusals;

    private static List<string> Rows(bool bits) => [.. Enumerable.Range(0, 4).Select(row =>
    {
        var record = Image.AsSpan(3 * row, 3).ToArray();
        return $"{3 * row:X4}: {string.Join(' ', record.Select(octet => bits ? $"{octet:b8}" : $"{octet:X2}"))} {CheckDigit.Of(3 * row, record):X}";
    })];
}
