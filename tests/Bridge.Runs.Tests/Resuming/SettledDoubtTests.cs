using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class SettledDoubtTests
{
    private static readonly JobFile Job = Examples.SmallJob;

    [Theory]
    [InlineData(true, InDoubt.Redo)]
    [InlineData(false, InDoubt.Skip)]
    public void The_place_that_is_gone_on_from_says_what_was_decided(bool isRedo, InDoubt decision)
    {
        var doubt = Doubt.OfSent(new JobPlace(1, 1), new JobPlace(4, 0), Job.Image, Job.Grid)!;
        var settled = SettledDoubt.Of(doubt, isRedo ? doubt.Redo : doubt.Skip);
        Assert.Equal(new SettledDoubt
        {
            Record = 1, Layer = 0, First = new Cell(6, 3), Last = new Cell(6, 4), Cells = 2, RecordsAfter = 2, Decision = decision,
        }, settled);
    }

    [Fact]
    public void Where_no_cell_is_in_doubt_none_is_named()
    {
        var doubt = Doubt.OfSent(new JobPlace(1, 3), new JobPlace(4, 0), Job.Image, Job.Grid)!;
        var settled = SettledDoubt.Of(doubt, doubt.Redo);
        Assert.Equal((0, null, null, 2), (settled.Cells, settled.First, settled.Last, settled.RecordsAfter));
    }
}
