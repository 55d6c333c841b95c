using Bridge.Jobs;

namespace Bridge.Layouts.Tests;

/// <summary>Exercises made by hand, their points counted by hand from the tables of LESSONS.md.</summary>
public class DifficultyTests
{
    private static readonly RecordWidth Width = RecordWidth.Four;
    private static readonly Record Plain = Record.Row(Width, Head.A, new Cell(1, 2), 0, 5);
    private static readonly Record Slanted = Record.Row(Width, Head.B, new Cell(9, 2), 3, 5, rise: true); // -X+Y: a diagonal, and X falls

    [Fact]
    public void A_plain_row_along_X_is_read_and_followed_at_one_star()
    {
        Assert.Equal((0, 1), Of(new DecodeExercise(Plain)));
        Assert.Equal((0, 1), Of(new CellsExercise([Plain])));
        Assert.Equal((1, 1), Of(new EncodeExercise(Plain)));
        Assert.Equal((0, 1), Of(new FollowExercise([Plain, Plain with { Y = 3 }])));
    }

    [Fact]
    public void A_field_that_is_not_zero_makes_a_record_harder_to_read_and_a_direction_harder_to_write()
    {
        Assert.Equal((3, 2), Of(new DecodeExercise(Slanted)));                                                               // head, heading, rise
        Assert.Equal((6, 3), Of(new EncodeExercise(Slanted)));                                                               // + writing, diagonal, falls
        Assert.Equal((1, 1), Of(new DecodeExercise(Record.Wait(Width, 20))));                                                // another verb
        Assert.Equal((2, 2), Of(new DecodeExercise(Record.WaitForOperator())));                                              // + heading 1
        Assert.Equal((4, 3), Of(new DecodeExercise(Record.Patch(Head.B, new Cell(9, 9), 2, 2, PatchWay.YFalls, rise: true))));
    }

    [Fact]
    public void Cells_grow_harder_with_diagonals_falls_patches_slopes_and_their_number()
    {
        Assert.Equal((1, 1), Of(new CellsExercise([Plain with { Heading = 1 }])));
        Assert.Equal((2, 2), Of(new CellsExercise([Slanted with { Rise = false }])));
        Assert.Equal((1, 1), Of(new CellsExercise([Record.Patch(Head.A, new Cell(1, 1), 3, 2, PatchWay.AlongY)])));
        Assert.Equal((4, 3), Of(new CellsExercise([Record.Patch(Head.A, new Cell(9, 9), 3, 4, PatchWay.XFalls | PatchWay.YFalls)])));
        Assert.Equal((1, 1), Of(new CellsExercise([Record.Go(Head.A, new Cell(2, 2)), Record.Line(Head.A, new Cell(6, 2))])));
        Assert.Equal((2, 2), Of(new CellsExercise([Record.Go(Head.A, new Cell(2, 2)), Record.Line(Head.A, new Cell(5, 5))])));
        Assert.Equal((3, 2), Of(new CellsExercise([Record.Go(Head.A, new Cell(2, 2)), Record.Line(Head.A, new Cell(6, 3))])));
        Assert.Equal((2, 2), Of(new CellsExercise([Plain with { Q = 12 }])));                                                // 13 cells
    }

    // The row of five cells from (1, 2) along +X is 0100 0000 0001 0010 0000 0100.
    [Fact]
    public void A_wrong_bit_that_makes_a_record_impossible_is_easier_than_one_that_makes_another_picture()
    {
        Assert.Equal((1, 1), Of(new FlippedBitExercise(new FlippedBit(Plain, 8), isPicture: false)));                        // from (9, 2)
        Assert.Equal((0, 1), Of(new FlippedBitExercise(new FlippedBit(Plain, 16), isPicture: false)));                       // 133 cells: off the grid
        Assert.Equal((2, 2), Of(new FlippedBitExercise(new FlippedBit(Plain, 3), isPicture: false)));                        // head b
        Assert.Equal((1, 1), Of(new FlippedBitExercise(new FlippedBit(Plain, 0), isPicture: false)));                        // a wait with x and y
        Assert.Equal((4, 3), Of(new FlippedBitExercise(new FlippedBit(Plain, 3), isPicture: true)));
        Assert.Equal((4, 3), Of(new FlippedBitExercise(new FlippedBit(Slanted, 3), isPicture: false)));
    }

    [Fact]
    public void A_repeat_a_patch_and_a_line_make_a_job_harder_to_follow()
    {
        var up = Plain with { Rise = true };
        Assert.Equal((1, 1), Of(new FollowExercise([up, Record.Again(Width, 1, 3)])));
        Assert.Equal((3, 2), Of(new FollowExercise([up, Record.Wait(Width, 5), Record.Again(Width, 2, 3)])));
        Assert.Equal((5, 3), Of(new FollowExercise([up, Record.Wait(Width, 5), Record.Line(Head.A, new Cell(9, 9)), Record.Again(Width, 3, 3)])));
        Assert.Equal((1, 1), Of(new FollowExercise([Record.Patch(Head.A, new Cell(1, 1), 2, 2, PatchWay.AlongX), Record.Wait(Width, 5)])));
    }

    [Fact]
    public void A_job_is_harder_to_shorten_the_more_there_is_to_be_seen_in_it()
    {
        Record[] dots = [.. Enumerable.Range(0, 5).Select(cell => Record.Row(Width, Head.A, new Cell(1 + cell, 2), 0, 1))];
        Record[] stairs = [.. dots.Select((dot, cell) => dot with { Y = 2 + cell })];
        Assert.Equal((1, 1), Of(new ShortenExercise(new("own", dots, [Plain]))));
        Assert.Equal((2, 2), Of(new ShortenExercise(new("own", dots, [Plain], IsMixed: true))));
        Assert.Equal((2, 2), Of(new ShortenExercise(new("own", stairs, [Plain with { Heading = 1 }]))));
        Assert.Equal((2, 2), Of(new ShortenExercise(new("own", [Plain with { Rise = true }, Plain with { Rise = true }],
            [Plain with { Rise = true }, Record.Again(Width, 1, 1)]))));
    }

    private static (int Points, int Stars) Of(Exercise exercise) => (exercise.Difficulty.Points, exercise.Level);
}
