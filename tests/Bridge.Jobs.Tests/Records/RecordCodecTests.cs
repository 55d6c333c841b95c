using CsCheck;

namespace Bridge.Jobs.Tests;

public class RecordCodecTests
{
    public static TheoryData<int, string, string> Lines()
    {
        var data = new TheoryData<int, string, string>();
        foreach (var field in Vectors.Of("job/records.txt"))
            data.Add(int.Parse(field[0]), field[1], field[2]);
        return data;
    }

    [Theory, MemberData(nameof(Lines))]
    public void The_golden_bytes_mean_what_the_vectors_say(int axisBits, string hex, string meaning)
    {
        Assert.True(RecordWidth.TryFrom(axisBits, out var width));
        var record = RecordCodec.Read(width, Convert.FromHexString(hex));
        Assert.Equal(meaning, record.Verb == Verb.None ? "refused VerbNone"
            : ReservedBits.SetIn(record).Length > 0 ? "refused ReservedBits"
            : $"{record.Verb.ToString().ToLowerInvariant()} {RecordWords.Name(record.Head)} {record.Heading} {(record.Rise ? 1 : 0)} "
                + $"{record.X} {record.Y} {record.P} {record.Q}");

        var back = new byte[width.Bytes];
        RecordCodec.Write(width, record, back);
        Assert.Equal(hex, Convert.ToHexString(back));
    }

    [Fact]
    public void Every_bit_pattern_of_each_width_survives_the_way_to_a_record_and_back()
    {
        foreach (var width in RecordWidth.All)
            Gen.Byte.Array[width.Bytes].Sample(bytes =>
            {
                var back = new byte[width.Bytes];
                RecordCodec.Write(width, RecordCodec.Read(width, bytes), back);
                return bytes.SequenceEqual(back);
            }, seed: "0N0XIzNsQ0O2", iter: 20_000);
    }

    [Fact]
    public void Every_opcode_of_a_four_bit_machine_is_read_or_refused_as_the_format_says()
    {
        // With x, y, p and q zero, what may stand is: end 00; go, row, patch and line with their bits; again with none; wait with heading 0 or 1.
        var allowed = Enumerable.Range(0, 256).Where(op => (op >> 5) switch
        {
            0 => op == 0,
            1 or 4 => (op & 0b1110) == 0,
            2 or 3 => true,
            5 => (op & 0b11111) == 0,
            6 => (op & 0b11100) == 0 && (op & 0b10000) == 0,
            _ => false,
        });
        var read = Enumerable.Range(0, 256).Where(op =>
        {
            var record = RecordCodec.Read(RecordWidth.Four, [(byte)op, 0, 0]);
            return record.Verb != Verb.None && ReservedBits.SetIn(record).Length == 0;
        });
        Assert.Equal(allowed, read);
    }

    [Fact]
    public void Four_bits_are_16_places_and_256_bytes_hold_85_records()
    {
        // Common practice for machines of this kind.
        Assert.Equal(16, RecordWidth.Four.Places);
        Assert.Equal(85, 256 / RecordWidth.Four.Bytes);
        Assert.Equal((5, 7), (RecordWidth.Eight.Bytes, RecordWidth.Twelve.Bytes));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    [InlineData(16)]
    [InlineData(-4)]
    public void Other_widths_are_refused(int axisBits) => Assert.False(RecordWidth.TryFrom(axisBits, out _));

    [Fact]
    public void Headings_go_counter_clockwise_from_east()
    {
        // Freeman 1961; the table as Octave's fchcode prints it: 3 2 1 / 4 . 0 / 5 6 7.
        int[,] table = { { 3, 2, 1 }, { 4, -1, 0 }, { 5, 6, 7 } };
        for (var heading = 0; heading < Heading.Count; heading++)
            Assert.Equal(heading, table[1 - Heading.Dy(heading), 1 + Heading.Dx(heading)]);
    }

    [Theory]
    [InlineData("401204", "row: head a works 5 cells from (1, 2) along +X")]
    [InlineData("7BA331", "up a layer, then patch: head b works 4 x 2 cells from the corner (10, 3), along Y first, X growing, Y falling")]
    [InlineData("A00104", "again: the last 2 records, 5 more times")]
    [InlineData("C00019", "wait 2.5 s")]
    [InlineData("C20000", "wait until the operator goes on")]
    [InlineData("000000", "end: the job is complete")]
    public void A_record_says_in_words_what_it_does(string hex, string words) =>
        Assert.Equal(words, RecordWords.Meaning(RecordWidth.Four, RecordCodec.Read(RecordWidth.Four, Convert.FromHexString(hex))));

    [Fact]
    public void The_bits_of_a_record_are_shown_by_field() =>
        Assert.Equal("011 1 101 1  1010 0011 0011 0001", RecordWords.Bits(RecordWidth.Four, RecordCodec.Read(RecordWidth.Four, [0x7B, 0xA3, 0x31])));
}
