namespace Bridge.Jobs.Tests;

public class PassReaderTests
{
    private static readonly RecordWidth Width = RecordWidth.Four;
    private static readonly Grid Grid = new(16, 12, 3);

    // A row, a row a layer up, both of them twice more, and a last row.
    private static readonly Image Repeating = Image.Of(Width, [
        Row(0, 0), Row(1, 1), Record.Go(Head.A, new Cell(2, 2)), Record.Again(Width, 2, 2), Row(3, 3), Record.End]);

    [Fact]
    public void Records_come_in_the_order_in_which_they_are_executed()
    {
        var reader = new PassReader(Repeating, Grid);
        Assert.Equal([0, 1, 2, 1, 2, 1, 2, 4], Indices(reader));
        Assert.Null(reader.Fault);
        Assert.Equal((5, new Cell(4, 3)), (reader.Next, reader.Position.Cell));
    }

    [Fact]
    public void An_again_shows_what_it_repeats_and_how_often_still()
    {
        var reader = new PassReader(Repeating, Grid);
        var seen = new List<Repeat?>();
        while (reader.TryNext(out _))
            seen.Add(reader.Repeat);
        Repeat?[] expected = [null, null, null, new Repeat(1, 3, 1), new Repeat(1, 3, 0), new Repeat(1, 3, 0), null, null];
        Assert.Equal(expected, seen);
    }

    [Fact]
    public void An_again_can_be_taken_by_itself()
    {
        var reader = new PassReader(Repeating, Grid);
        for (var pass = 0; pass < 3; pass++)
        {
            Assert.False(reader.TryTakeAgain());
            Assert.True(reader.TryNext(out _));
        }

        Assert.Equal(3, reader.Next);
        Assert.True(reader.TryTakeAgain());
        Assert.Equal((1, new Repeat(1, 3, 1)), (reader.Next, reader.Repeat));
        Assert.False(reader.TryTakeAgain());
    }

    [Fact]
    public void A_copy_goes_on_by_itself_and_leaves_the_other_where_it_was()
    {
        var reader = new PassReader(Repeating, Grid);
        for (var pass = 0; pass < 4; pass++)
            reader.TryNext(out _);
        var (next, repeat) = (reader.Next, reader.Repeat);
        Assert.Equal([2, 1, 2, 4], Indices(reader.Copy()));
        Assert.Equal((next, repeat), (reader.Next, reader.Repeat));
        Assert.Equal([2, 1, 2, 4], Indices(reader));
    }

    [Fact]
    public void A_reader_that_is_put_elsewhere_forgets_what_it_repeated_and_what_had_stopped_it()
    {
        var reader = new PassReader(Repeating, Grid);
        for (var pass = 0; pass < 4; pass++)
            reader.TryNext(out _);
        reader.GoOnAt(2, new Position(new Cell(5, 5), 1, Head.B));
        Assert.Equal((2, null), (reader.Next, reader.Repeat));
        Assert.True(reader.TryNext(out var pass2));
        Assert.Equal((new Cell(5, 5), 1, 2), (pass2.Before.Cell, pass2.Entry.Layer, pass2.Index));

        var stopped = new PassReader(Image.Of(Width, [Row(15, 0), Row(0, 0), Record.End]), Grid);
        Assert.False(stopped.TryNext(out _));
        Assert.False(stopped.TryTakeAgain());
        Assert.NotNull(stopped.Fault);
        stopped.GoOnAt(1, default);
        Assert.Null(stopped.Fault);
        Assert.Equal([1], Indices(stopped));
    }

    [Fact]
    public void After_a_fault_and_after_the_end_nothing_more_comes()
    {
        var reader = new PassReader(Image.Of(Width, [Row(15, 0), Row(0, 0), Record.End]), Grid);
        Assert.Empty(Indices(reader));
        Assert.Empty(Indices(reader));
        var whole = new PassReader(Repeating, Grid);
        Indices(whole);
        Assert.False(whole.TryNext(out var none));
        Assert.Equal(default, none);
    }

    [Theory]
    [InlineData("E00000", "record 0 (byte 0): found verb 7 (none); allowed: verbs 0 to 6. Erased or damaged memory: write the image again.")]
    [InlineData("200001", "record 0 (byte 0): found bits set in q; allowed: zero: go does not use them. "
        + "A wrong bit: correct the record or plan the job again.")]
    [InlineData("210000210000210000", "record 2 (byte 6): found a rise to layer 3; allowed: layers 0 to 2. Plan the shape with fewer layers.")]
    [InlineData("40F001", "record 0 (byte 0): found row: head a works 2 cells from (15, 0) along +X, which reaches (16, 0); allowed: x 0 to 15, y 0 to 11. "
        + "Correct the record or plan the job for this grid.")]
    [InlineData("200C00", "go to (0, 12) with head a, which reaches (0, 12)")]
    [InlineData("480001", "along -X, which reaches (-1, 0)")]
    [InlineData("4C0C01", "along -Y, which reaches (0, 12)")] // where it begins, not where it comes to
    [InlineData("A00000", "record 0 (byte 0): found again over the last 1 records; allowed: at most the 0 records before it. Correct the count.")]
    [InlineData("200000A00000200000A00200", "record 3 (byte 9): found again over the last 3 records, record 1 among them; "
        + "allowed: at most the 1 records behind the again at record 1. Correct the count.")]
    public void A_fault_says_where_what_was_found_what_is_allowed_and_what_to_do(string hex, string words)
    {
        var reader = new PassReader(Image.Parse(Width, Convert.FromHexString(hex + "000000"), "store"), Grid);
        Indices(reader);
        Assert.Contains(words, $"{reader.Fault}");
    }

    [Fact]
    public void A_job_may_work_a_thousand_million_cells_and_not_one_more()
    {
        var (wide, grid) = (RecordWidth.Twelve, new Grid(4096, 4096, 1));
        Record[] most =
        [
            Record.Patch(Head.A, default, 4096, 4096, default), Record.Again(wide, 1, 58), // 59 * 4096 * 4096 = 989 855 744
            Record.Patch(Head.A, default, 4096, 2476, default), Record.Row(wide, Head.A, default, 0, 2560), // and 10 144 256
        ];
        var whole = new PassReader(Image.Of(wide, [.. most, Record.End]), grid);
        Assert.Equal(61, Indices(whole).Count);
        Assert.Null(whole.Fault);
        var beyond = new PassReader(Image.Of(wide, [.. most, Record.Row(wide, Head.A, default, 0, 1), Record.End]), grid);
        Indices(beyond);
        Assert.Equal("record 4 (byte 28): found more than 1000000000 cells worked; allowed: up to 1000000000. "
            + "An again with a wrong count? Correct it, or split the job.", $"{beyond.Fault}");
    }

    [Fact]
    public void A_job_may_execute_ten_million_records_its_agains_and_its_end_among_them_and_not_one_more()
    {
        var wide = RecordWidth.Twelve;
        foreach (var (times, isWhole) in new[] { (PassReader.MostPasses - 3, true), (PassReader.MostPasses - 2, false) })
        {
            var reader = new PassReader(Image.Of(wide, [Record.Go(Head.A, default), Record.Again(wide, 1, times), Record.End]), Grid);
            while (reader.TryNext(out _))
            {
            }

            Assert.Equal(isWhole ? "" : "record 2 (byte 14): found more than 10000000 executed records; allowed: up to 10000000. "
                + "An again with a wrong count? Correct it, or split the job.", $"{reader.Fault}");
        }
    }

    [Fact]
    public void The_cell_worked_last_bears_its_record_its_layer_and_its_head()
    {
        var interpreter = new Interpreter(Image.Of(Width, [Row(0, 0), Record.Row(Width, Head.B, new Cell(4, 4), 2, 2, rise: true), Record.End]), Grid);
        var cells = new List<WorkedCell>();
        while (interpreter.MoveNext())
            cells.Add(interpreter.Current);
        Assert.Equal(
            [
                new(new Cell(0, 0), 0, Head.A, 0), new(new Cell(1, 0), 0, Head.A, 0),
                new(new Cell(4, 4), 1, Head.B, 1), new(new Cell(4, 5), 1, Head.B, 1),
            ], cells);
        Assert.Null(interpreter.Fault);
    }

    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(15, 11, true)]
    [InlineData(16, 0, false)]
    [InlineData(0, 12, false)]
    [InlineData(-1, 0, false)]
    [InlineData(0, -1, false)]
    public void A_grid_holds_its_cells_and_no_others(int x, int y, bool isHeld) => Assert.Equal(isHeld, Grid.Holds(new Cell(x, y)));

    private static Record Row(int x, int y) => Record.Row(Width, Head.A, new Cell(x, y), 0, 2);

    private static List<int> Indices(PassReader reader)
    {
        var indices = new List<int>();
        while (reader.TryNext(out var pass))
            indices.Add(pass.Index);
        return indices;
    }
}
