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

    [Theory]
    [InlineData(Verb.End, "head, heading, rise, x, y, p, q")]
    [InlineData(Verb.Go, "heading, p, q")]
    [InlineData(Verb.Row, "")]
    [InlineData(Verb.Patch, "")]
    [InlineData(Verb.Line, "heading, p, q")]
    [InlineData(Verb.Again, "head, heading, rise")]
    [InlineData(Verb.Wait, "head, x, y, p, q, heading above 1")]
    public void Bits_that_a_verb_does_not_use_are_named_when_they_are_set(Verb verb, string names) =>
        Assert.Equal(names, ReservedBits.SetIn(new Record(verb, Head.B, 7, true, 1, 1, 1, 1)));

    [Fact]
    public void A_wait_of_a_time_uses_the_pair_that_one_for_the_operator_does_not()
    {
        Assert.Empty(ReservedBits.SetIn(Record.Wait(RecordWidth.Four, 255, rise: true)));
        Assert.Empty(ReservedBits.SetIn(Record.WaitForOperator(rise: true)));
        Assert.Equal("p, q", ReservedBits.SetIn(Record.WaitForOperator() with { P = 1, Q = 1 }));
    }

    [Fact]
    public void Each_way_to_make_a_record_puts_its_numbers_where_they_are_read() => Assert.All(RecordWidth.All, width =>
    {
        Assert.Equal(width.LargestPair, Record.Row(width, Head.B, new Cell(1, 2), 5, width.LargestPair + 1, rise: true).PairPq(width));
        Assert.Equal((Verb.Row, Head.B, 5, true, 1, 2, 0, 0), Fields(Record.Row(width, Head.B, new Cell(1, 2), 5, 1, rise: true)));
        Assert.Equal((Verb.Patch, Head.A, 5, false, 1, 2, 3, 0), Fields(Record.Patch(Head.A, new Cell(1, 2), 4, 1, PatchWay.AlongY | PatchWay.YFalls)));
        Assert.Equal((Verb.Line, Head.B, 0, true, 1, 2, 0, 0), Fields(Record.Line(Head.B, new Cell(1, 2), rise: true)));
        Assert.Equal((Verb.Go, Head.B, 0, false, 1, 2, 0, 0), Fields(Record.Go(Head.B, new Cell(1, 2))));
        var again = Record.Again(width, width.Places + 2, width.Places + 3);
        Assert.Equal((Verb.Again, Head.A, 0, false, 1, 1, 1, 2), Fields(again));
        Assert.Equal((width.Places + 1, width.Places + 2), (again.PairXy(width), again.PairPq(width)));
        Assert.Equal((Verb.Wait, Head.A, 0, true, 0, 0, 1, 3), Fields(Record.Wait(width, width.Places + 3, rise: true)));
        Assert.Equal((Verb.Wait, Head.A, 1, false, 0, 0, 0, 0), Fields(Record.WaitForOperator()));
    });

    [Fact]
    public void Cells_grids_and_digests_are_written_as_people_write_them()
    {
        Assert.Equal(("(3, 4)", "16 x 12 x 5"), ($"{new Cell(3, 4)}", $"{new Grid(16, 12, 5)}"));
        Assert.Equal(new string('0', 64), $"{default(MachineDigest)}");
        Assert.Equal(new byte[32], default(MachineDigest).ToBytes());
        Assert.Throws<ArgumentException>(() => MachineDigest.From(new byte[31]));
        Assert.Equal(MachineDigest.Of("abc"u8), MachineDigest.From(MachineDigest.Of("abc"u8).ToBytes()));
    }

    private static (Verb, Head, int, bool, int, int, int, int) Fields(Record record) =>
        (record.Verb, record.Head, record.Heading, record.Rise, record.X, record.Y, record.P, record.Q);
}
