using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>The small job: 11 records with its end, the first a patch of 12 cells, the second a row of 3. Its run has number 7.</summary>
public class ResumePointTests
{
    private static readonly ProvedJob Job = ProvedJob.Of(Examples.SmallJob, Examples.Gantry);

    private static readonly Status Fresh = new ScriptedDevice(new VirtualTime()).Status;

    [Theory]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Suspended)]
    [InlineData(MachineState.Execute)]
    [InlineData(MachineState.Complete)]
    public void A_device_that_has_the_run_goes_on_with_it(MachineState state)
    {
        Assert.IsType<ResumePoint.OnDevice>(Of(History(null), Of(state, run: 7, taken: 4)));
        Assert.IsType<ResumePoint.OnDevice>(Of(History(null), Of(state, run: 7, taken: 3)));
    }

    [Theory]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Suspended)]
    [InlineData(MachineState.Execute)]
    public void A_device_with_another_run_or_with_records_that_were_never_sent_is_busy(MachineState state)
    {
        Assert.Equal(new ResumePoint.Busy(state), Of(History(null), Of(state, run: 8, taken: 4)));
        Assert.Equal(new ResumePoint.Busy(state), Of(History(null), Of(state, run: 7, taken: 5)));
    }

    [Fact]
    public void A_device_that_has_completed_another_run_is_free() =>
        Assert.IsType<ResumePoint.AfterRestart>(Of(History(null), Of(MachineState.Complete, run: 8, taken: 11)));

    [Fact]
    public void A_run_that_was_cut_off_leaves_all_in_doubt_that_was_sent()
    {
        var point = After(Of(History(null), Fresh));
        Assert.Equal((new JobPlace(1, 1), 1L, 1L), (point.Known, point.Records, point.Cells));
        Assert.Equal((new JobPlace(1, 1), new JobPlace(2, 0), 2L, 2L),
            (point.Doubt!.Redo, point.Doubt.Skip, point.Doubt.Cells.Count, point.Doubt.RecordsAfter));
    }

    [Theory]
    [InlineData(RunOutcome.LineLost)]
    [InlineData(RunOutcome.JournalFailed)]
    public void So_does_one_whose_machine_may_have_gone_on(RunOutcome outcome) =>
        Assert.Equal(2, After(Of(History(outcome), Fresh)).Doubt!.RecordsAfter);

    [Theory]
    [InlineData(RunOutcome.Stopped)]
    [InlineData(RunOutcome.HeldTooLong)]
    public void So_does_one_that_was_taken_up_and_stopped_before_its_device_was_heard(RunOutcome outcome) =>
        Assert.Equal(2, After(Of(History(outcome, isKnown: false), Fresh)).Doubt!.RecordsAfter);

    [Fact]
    public void An_abort_leaves_one_cell_in_doubt()
    {
        var doubt = After(Of(History(RunOutcome.Aborted), Fresh)).Doubt!;
        Assert.Equal((new JobPlace(1, 1), new JobPlace(1, 2), 1L, 0L), (doubt.Redo, doubt.Skip, doubt.Cells.Count, doubt.RecordsAfter));
    }

    [Fact]
    public void An_abort_of_a_device_that_knew_nothing_of_the_run_any_more_leaves_all_in_doubt_that_was_sent()
    {
        var doubt = After(Of(History(RunOutcome.Aborted, isKnown: false), Fresh)).Doubt!;
        Assert.Equal((new JobPlace(1, 1), 2L, 2L), (doubt.Redo, doubt.Cells.Count, doubt.RecordsAfter));
    }

    [Fact]
    public void A_record_whose_cells_are_all_worked_is_executed()
    {
        Assert.Equal(new JobPlace(2, 0), After(Of(History(RunOutcome.Stopped, cells: 3), Fresh)).Known);
        Assert.Equal(new JobPlace(2, 0), After(Of(History(null), Of(MachineState.Stopped, run: 7, taken: 4, done: 1, cells: 3))).Known);
        Assert.Equal(new JobPlace(1, 2), After(Of(History(RunOutcome.Stopped, cells: 2), Fresh)).Known);
        var course = Course.From(Job.Job.Image, Job.Machine.Grid, new JobPlace(2, 0));
        Assert.Equal(9, course.Records(11)); // and no record is led to that has nothing left
    }

    [Fact]
    public void Of_a_doubt_the_furthest_is_what_was_sent_or_the_next_cell()
    {
        var history = History(null);
        Assert.Equal(new JobPlace(4, 0), history.Furthest(After(Of(history, Fresh)).Doubt!));
        var aborted = History(RunOutcome.Aborted);
        Assert.Equal(new JobPlace(1, 2), aborted.Furthest(After(Of(aborted, Fresh)).Doubt!));
    }

    [Fact]
    public void What_may_have_been_built_where_the_head_comes_down_is_in_its_way()
    {
        var job = ProvedJob.Of(Examples.Job(Examples.Gantry,
            Record.Row(RecordWidth.Four, Head.A, new Cell(5, 5), 0, 3),
            Record.Row(RecordWidth.Four, Head.A, new Cell(0, 1), 0, 3),
            Record.End), Examples.Gantry);
        var history = RunHistory.Of(new JournalFile(
        [
            new(0, 0, JournalKind.Begin) { Run = 7, MachineDigest = job.Machine.Digest.ToString(), JobDigest = job.JobDigest },
            new(1, 0, JournalKind.Sent) { Records = 2 },
            new(2, 0, JournalKind.Done) { Records = 0, Cells = 1 },
        ], 0, null), "journal", job);
        var point = After(ResumePoint.Of(history, job, Fresh));
        Assert.Null(DescentCheck.FirstInTheWay(job.Machine, history.WorkedUpTo(point.Known)));
        Assert.Equal((new Cell(0, 1), 0), DescentCheck.FirstInTheWay(new StoppedRun(null!, job, history, JournalFile.Empty), point));
        Assert.Null(DescentCheck.FirstInTheWay(new StoppedRun(null!, job, history, JournalFile.Empty), point with { Doubt = null }));
    }

    [Theory]
    [InlineData(RunOutcome.Stopped)]
    [InlineData(RunOutcome.HeldTooLong)]
    public void A_machine_that_came_to_rest_leaves_nothing_in_doubt(RunOutcome outcome)
    {
        Assert.Equal((new JobPlace(1, 1), null), (After(Of(History(outcome), Fresh)).Known, After(Of(History(outcome), Fresh)).Doubt));
        Assert.Null(After(Of(History(outcome), Of(MachineState.Stopped, run: 7, taken: 4, done: 1, cells: 2))).Doubt);
    }

    [Fact]
    public void A_device_that_still_knows_the_run_says_itself_how_far_it_came()
    {
        var point = After(Of(History(null), Of(MachineState.Aborted, run: 7, taken: 4, done: 1, cells: 2)));
        Assert.Equal((new JobPlace(1, 2), 1L, 2L), (point.Known, point.Records, point.Cells));
        Assert.Equal((new JobPlace(2, 0), 1L), (point.Doubt!.Skip, point.Doubt.Cells.Count));
    }

    [Fact]
    public void A_job_whose_every_record_is_done_is_complete_whoever_says_so()
    {
        Assert.IsType<ResumePoint.Complete>(Of(History(RunOutcome.Complete), Fresh));
        Assert.IsType<ResumePoint.Complete>(Of(History(null, sent: 11), Of(MachineState.Stopped, run: 7, taken: 11, done: 11)));
        Assert.IsType<ResumePoint.AfterRestart>(Of(History(null, sent: 11), Of(MachineState.Stopped, run: 7, taken: 11, done: 10)));
        Assert.IsType<ResumePoint.Complete>(Of(History(null, sent: 11, done: 11, cells: 0), Fresh));
    }

    [Fact]
    public void A_run_that_goes_on_on_its_device_keeps_its_number_and_its_course()
    {
        var history = History(null);
        var resumed = Resumption.OnDevice(history);
        Assert.Equal((history.RunId, 4L, history.Entries), (resumed.RunId, resumed.SentBefore, resumed.Entries));
        Assert.Same(history.Course, resumed.Course);
        Assert.Equal((0L, 0L), resumed.Worked.Counts);
    }

    [Fact]
    public void A_run_that_is_led_back_has_a_new_number_a_course_of_its_own_and_what_was_worked_before()
    {
        var history = History(null);
        var resumed = Resumption.AfterRestart(history, Job, After(Of(history, Fresh)), new JobPlace(2, 0), 9);
        Assert.Equal((9, null, history.Entries), ((int)resumed.RunId, resumed.SentBefore, resumed.Entries));
        Assert.Equal(new JobPlace(2, 0), resumed.Course.Start);
        Assert.Equal(13, resumed.Worked.Counts.A + resumed.Worked.Counts.B);
    }

    private static ResumePoint Of(RunHistory history, Status status) => ResumePoint.Of(history, Job, status);

    private static ResumePoint.AfterRestart After(ResumePoint point) => Assert.IsType<ResumePoint.AfterRestart>(point);

    private static Status Of(MachineState state, ushort run, uint taken, uint done = 0, uint cells = 0) =>
        Fresh with { State = state, RunId = run, RecordsTaken = taken, RecordsDone = done, CellsDone = cells };

    private static RunHistory History(RunOutcome? outcome, long sent = 4, long done = 1, long cells = 1, bool isKnown = true)
    {
        JournalEntry[] entries =
        [
            new(0, 0, JournalKind.Begin) { Run = 7, MachineDigest = Job.Machine.Digest.ToString(), JobDigest = Job.JobDigest },
            new(1, 0, JournalKind.Sent) { Records = sent },
            new(2, 0, JournalKind.Done) { Records = done, Cells = cells },
        ];
        JournalEntry[] end = outcome is null ? []
            : [new(3, 0, JournalKind.End) { Outcome = outcome.ToString(), Records = isKnown ? done : null, Cells = isKnown ? cells : null }];
        return RunHistory.Of(new JournalFile([.. entries, .. end], 0, null), "journal", Job);
    }
}
