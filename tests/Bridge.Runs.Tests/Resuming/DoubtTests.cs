using Bridge.Jobs;

namespace Bridge.Runs.Tests;

/// <summary>The small job's first record is a patch of 4 x 3 cells from (2, 2) along X, its second a row of 3 from (6, 2) to (6, 4) by head b.</summary>
public class DoubtTests
{
    private static readonly JobFile Job = Examples.SmallJob;

    [Fact]
    public void The_next_cell_is_one_cell_to_redo_or_to_skip()
    {
        var doubt = NextCell(new JobPlace(0, 5))!;
        Assert.Equal((new JobPlace(0, 5), new JobPlace(0, 6)), (doubt.Redo, doubt.Skip));
        Assert.Equal((CellOf(0, 5), CellOf(0, 5), 1L), doubt.Cells);
        Assert.Equal((0, 0L), (doubt.Pass.Index, doubt.RecordsAfter));
    }

    [Fact]
    public void The_last_cell_of_a_record_is_skipped_to_the_next_record()
    {
        var doubt = NextCell(new JobPlace(0, 11))!;
        Assert.Equal((new JobPlace(0, 11), new JobPlace(1, 0)), (doubt.Redo, doubt.Skip));
        Assert.Equal((CellOf(0, 11), CellOf(0, 11), 1L), doubt.Cells);
    }

    [Fact]
    public void At_the_end_of_a_record_and_beyond_the_last_no_cell_is_in_doubt()
    {
        Assert.Null(NextCell(new JobPlace(0, 12)));
        Assert.Null(NextCell(new JobPlace(10, 0)));
        Assert.Null(NextCell(new JobPlace(1_000, 0)));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(11)]
    public void The_rest_of_a_record_that_was_sent_is_in_doubt_from_its_first_cell_to_its_last(int known)
    {
        var doubt = Sent(new JobPlace(0, known), new JobPlace(1, 0))!;
        Assert.Equal((new JobPlace(0, known), new JobPlace(1, 0)), (doubt.Redo, doubt.Skip));
        Assert.Equal((CellOf(0, known), CellOf(0, 11), 12L - known), doubt.Cells);
        Assert.Equal(0, doubt.RecordsAfter);
    }

    [Theory]
    [InlineData(4)] // a way back works the rest of a patch row by row
    [InlineData(8)]
    public void Of_a_record_that_a_way_back_goes_on_in_only_what_was_sent_of_it_is_in_doubt(int sent)
    {
        var doubt = Sent(new JobPlace(0, 2), new JobPlace(0, sent))!;
        Assert.Equal((new JobPlace(0, 2), new JobPlace(0, sent)), (doubt.Redo, doubt.Skip));
        Assert.Equal((CellOf(0, 2), CellOf(0, sent - 1), sent - 2L), doubt.Cells);
        Assert.Equal(0, doubt.RecordsAfter);
    }

    [Fact]
    public void The_record_in_doubt_is_the_one_that_comes_next_with_its_head_and_layer()
    {
        var doubt = Sent(new JobPlace(1, 1), new JobPlace(4, 0))!;
        Assert.Equal((1, Head.B, 0), (doubt.Pass.Index, doubt.Pass.Entry.Head, doubt.Pass.Entry.Layer));
        Assert.Equal((new Cell(6, 3), new Cell(6, 4), 2L), doubt.Cells);
        Assert.Equal(2, doubt.RecordsAfter);
    }

    [Fact]
    public void What_was_sent_no_further_than_it_is_known_leaves_no_doubt()
    {
        Assert.Null(Sent(new JobPlace(1, 0), new JobPlace(1, 0)));
        Assert.Null(Sent(new JobPlace(2, 0), new JobPlace(1, 0)));
        Assert.Null(Sent(new JobPlace(0, 12), new JobPlace(1, 0)));
    }

    [Fact]
    public void After_the_last_cell_of_a_record_those_that_were_sent_after_it_are_still_in_doubt()
    {
        var doubt = Sent(new JobPlace(0, 12), new JobPlace(3, 0))!;
        Assert.Equal((0L, 2L, new JobPlace(1, 0)), (doubt.Cells.Count, doubt.RecordsAfter, doubt.Skip));
    }

    [Fact]
    public void A_record_that_works_nothing_is_in_doubt_only_with_those_after_it_and_where_it_goes_to()
    {
        var job = Examples.Job(Examples.Gantry, Record.Go(Head.A, new Cell(7, 3)), Record.Row(RecordWidth.Four, Head.A, new Cell(7, 3), 0, 2), Record.End);
        Assert.Null(Doubt.OfSent(default, new JobPlace(1, 0), job.Image, job.Grid));
        var doubt = Doubt.OfSent(default, new JobPlace(2, 0), job.Image, job.Grid)!;
        Assert.Equal((new Cell(7, 3), new Cell(7, 3), 0L), doubt.Cells);
        Assert.Equal((new JobPlace(0, 0), new JobPlace(1, 0), 1L), (doubt.Redo, doubt.Skip, doubt.RecordsAfter));
    }

    private static Doubt? NextCell(JobPlace known) => Doubt.OfNextCell(known, Job.Image, Job.Grid);

    private static Doubt? Sent(JobPlace known, JobPlace sent) => Doubt.OfSent(known, sent, Job.Image, Job.Grid);

    private static Cell CellOf(int record, int cell)
    {
        var passes = new PassReader(Job.Image, Job.Grid);
        for (var index = 0; passes.TryNext(out var pass); index++)
            if (index == record)
            {
                var at = 0;
                foreach (var each in pass.Work)
                    if (at++ == cell)
                        return each;
            }

        throw new ArgumentOutOfRangeException(nameof(cell), cell, "The job has no such cell.");
    }
}
