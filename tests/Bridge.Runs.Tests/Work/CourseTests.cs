using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class CourseTests
{
    /// <summary>Rises with every verb, a line that begins where a patch ends, a line after a wait, and repeats.</summary>
    private static readonly JobFile Winding = Examples.Job(Examples.Gantry,
        Record.Patch(Head.A, new Cell(2, 2), 3, 4, PatchWay.AlongY | PatchWay.XFalls),
        Record.Line(Head.B, new Cell(12, 7)),
        Record.Wait(RecordWidth.Four, 3, rise: true),
        Record.Line(Head.B, new Cell(3, 12)),
        Record.Row(RecordWidth.Four, Head.A, new Cell(9, 9), 5, 6, rise: true),
        Record.Go(Head.A, new Cell(4, 4), rise: true),
        Record.Line(Head.A, new Cell(4, 4)),
        Record.Again(RecordWidth.Four, 4, 2),
        Record.Line(Head.B, new Cell(0, 15)),
        Record.End);

    [Fact]
    public void From_every_place_a_course_works_just_the_cells_that_are_left_in_their_order() =>
        Assert.All(new[] { Winding, Examples.SmallJob, Examples.TinyJob }, job => Assert.All(Places(job), place =>
        {
            var course = Course.From(job.Image, job.Grid, place);
            Assert.Equal(CellsOf(Course.Whole(job.Image, job.Grid)).Skip(CellsBefore(job, place)), CellsOf(course));
        }));

    [Fact]
    public void The_records_of_a_course_are_a_job_of_their_own_that_works_what_is_left() => Assert.All(Places(Winding), place =>
    {
        var source = new RecordSource(Course.From(Winding.Image, Winding.Grid, place));
        var records = new byte[3 * 200];
        var count = source.Take(records, 200);
        var image = Image.Parse(RecordWidth.Four, records.AsSpan(0, 3 * count), "course");
        var played = new PassReader(image, Winding.Grid);
        var (passes, cells) = (0, new List<(Cell, int, Head)>());
        for (; played.TryNext(out var pass); passes++)
            foreach (var cell in pass.Work)
                cells.Add((cell, pass.Entry.Layer, pass.Entry.Head));
        Assert.Null(played.Fault);
        Assert.Equal(CellsOf(Course.Whole(Winding.Image, Winding.Grid)).Skip(CellsBefore(Winding, place)), cells); // as a machine at home works them
        Assert.Equal(count, passes + 1);
        Assert.Equal(count, Course.From(Winding.Image, Winding.Grid, place).Records(RecordsOf(Winding)));
    });

    [Fact]
    public void Every_stand_of_a_course_is_a_place_of_the_job_with_as_many_cells_before_it() => Assert.All(Places(Winding), place =>
    {
        var course = Course.From(Winding.Image, Winding.Grid, place);
        using var passes = course.Passes();
        long cells = CellsBefore(Winding, place);
        for (var record = 0; passes.MoveNext(); record++)
        {
            for (var done = 0; done < passes.Current.Work.Cells; done++)
                Assert.Equal(cells + done, CellsBefore(Winding, course.PlaceOf(record, done)));
            cells += passes.Current.Work.Cells;
        }
    });

    /// <summary>Every place of a job: before each record and after each of its cells, and at its end.</summary>
    internal static IEnumerable<JobPlace> Places(JobFile job)
    {
        var passes = new PassReader(job.Image, job.Grid);
        var record = 0;
        for (; passes.TryNext(out var pass); record++)
            for (var cells = 0; cells <= pass.Work.Cells; cells++)
                yield return new JobPlace(record, cells);
        yield return new JobPlace(record, 0);
    }

    internal static int CellsBefore(JobFile job, JobPlace place)
    {
        var passes = new PassReader(job.Image, job.Grid);
        var cells = place.Cells;
        for (var record = 0; record < place.Records && passes.TryNext(out var pass); record++)
            cells += pass.Work.Cells;
        return (int)cells;
    }

    private static long RecordsOf(JobFile job) => ProvedJob.Of(job, Examples.Gantry with { MayOverprint = true }).RecordsToSend;

    private static List<(Cell, int, Head)> CellsOf(Course course)
    {
        var cells = new List<(Cell, int, Head)>();
        using var passes = course.Passes();
        while (passes.MoveNext())
            foreach (var cell in passes.Current.Work)
                cells.Add((cell, passes.Current.Entry.Layer, passes.Current.Entry.Head));
        return cells;
    }
}
