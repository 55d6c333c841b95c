namespace Bridge.Jobs.Tests;

public class RecordWordsTests
{
    private static readonly RecordWidth Width = RecordWidth.Four;

    // The examples of JOB-FORMAT.md.
    [Theory]
    [InlineData("401204", "010 0 000 0  0001 0010 0000 0100")]
    [InlineData("7BA331", "011 1 101 1  1010 0011 0011 0001")]
    [InlineData("A00104", "101 0 000 0  0000 0001 0000 0100")]
    [InlineData("000000", "000 0 000 0  0000 0000 0000 0000")]
    public void The_bits_of_a_record_are_shown_field_by_field(string hex, string bits) =>
        Assert.Equal(bits, RecordWords.Bits(Width, RecordCodec.Read(Width, Convert.FromHexString(hex))));

    [Theory]
    [InlineData("000000", "end: the job is complete")]
    [InlineData("20F000", "go to (15, 0) with head a")]
    [InlineData("310F00", "up a layer, then go to (0, 15) with head b")]
    [InlineData("401204", "row: head a works 5 cells from (1, 2) along +X")]
    [InlineData("4E1200", "row: head a works 1 cell from (1, 2) along +X-Y")]
    [InlineData("461211", "row: head a works 18 cells from (1, 2) along -X+Y")]
    [InlineData("7BA331", "up a layer, then patch: head b works 4 x 2 cells from the corner (10, 3), along Y first, X growing, Y falling")]
    [InlineData("640021", "patch: head a works 3 x 2 cells from the corner (0, 0), along X first, X falling, Y growing")]
    [InlineData("803400", "line: head a works in a straight line to (3, 4)")]
    [InlineData("A00104", "again: the last 2 records, 5 more times")]
    [InlineData("A00000", "again: the last 1 record, 1 more time")]
    [InlineData("C00012", "wait 1.8 s")]
    [InlineData("C20000", "wait until the operator goes on")]
    [InlineData("FFFFFF", "up a layer, then none: never valid")]
    public void A_record_is_told_in_words(string hex, string words) =>
        Assert.Equal(words, RecordWords.Meaning(Width, RecordCodec.Read(Width, Convert.FromHexString(hex))));

    [Fact]
    public void Each_heading_has_its_name()
    {
        string[] names = ["+X", "+X+Y", "+Y", "-X+Y", "-X", "-X-Y", "-Y", "+X-Y"]; // Freeman 1961, counter-clockwise
        for (var heading = 0; heading < Heading.Count; heading++)
            Assert.EndsWith($"along {names[heading]}", RecordWords.Meaning(Width, Record.Row(Width, Head.B, new Cell(8, 8), heading, 2)));
    }
}
