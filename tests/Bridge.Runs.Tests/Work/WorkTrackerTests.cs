using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class WorkTrackerTests
{
    [Fact]
    public void Every_stand_of_records_and_cells_is_just_the_cells_up_to_there()
    {
        var job = Examples.SmallJob;
        var all = new List<WorkedCell>();
        var interpreter = new Interpreter(job.Image, job.Grid);
        while (interpreter.MoveNext())
            all.Add(interpreter.Current);

        var cells = 0;
        var (records, passes) = (0, new PassReader(job.Image, job.Grid));
        while (passes.TryNext(out var pass))
        {
            for (var done = 0; done <= pass.Work.Cells; done++)
            {
                var tracker = new WorkTracker(Course.Whole(job.Image, job.Grid));
                tracker.AdvanceTo(records, done);
                Holds(tracker.Worked, all[..(cells + done)]);
            }

            cells += (int)pass.Work.Cells;
            records++;
        }

        Assert.Equal(all.Count, cells);
    }

    [Fact]
    public void A_stand_that_falls_back_takes_nothing_back_and_one_beyond_the_end_is_the_end()
    {
        var tracker = new WorkTracker(Course.Whole(Examples.SmallJob.Image, Examples.SmallJob.Grid));
        tracker.AdvanceTo(2, 1);
        var before = tracker.Worked.Counts;
        tracker.AdvanceTo(1, 0);
        Assert.Equal(before, tracker.Worked.Counts);
        tracker.AdvanceTo(1_000_000, 1_000_000);
        Assert.Equal(WorkedCells.Of(Examples.SmallJob.Image, Examples.SmallJob.Grid).Counts, tracker.Worked.Counts);
    }

    private static void Holds(WorkedCells worked, List<WorkedCell> expected)
    {
        Assert.Equal(expected.Count, worked.Counts.A + worked.Counts.B);
        Assert.All(expected, cell => Assert.True(worked.Has(cell.Cell, cell.Layer, cell.Head)));
    }
}
