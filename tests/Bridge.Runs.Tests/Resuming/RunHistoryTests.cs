using Bridge.Jobs;

namespace Bridge.Runs.Tests;

/// <summary>Journals written by hand, of the small job: 11 records with its end, the first a patch of 12 cells.</summary>
public class RunHistoryTests
{
    private static readonly ProvedJob Job = ProvedJob.Of(Examples.SmallJob, Examples.Gantry);

    private static readonly JournalEntry Begin = new(0, 0, JournalKind.Begin)
    {
        Run = 7, MachineDigest = Job.Machine.Digest.ToString(), JobDigest = Job.JobDigest,
    };

    [Fact]
    public void A_run_stands_where_its_last_entries_say()
    {
        var history = Of(Begin, Sent(4), Done(JournalKind.Done, 1, 2));
        Assert.Equal((7, 4, 1, 2, 3), ((int)history.RunId, history.Sent, history.Records, history.Cells, history.Entries));
        Assert.Equal((new JobPlace(1, 2), null), (history.Known, history.Outcome));
        Assert.Equal(14, Sum(history.WorkedUpTo(history.Known)));
        Assert.Equal(0, Sum(history.WorkedBefore()));
    }

    [Theory]
    [InlineData(JournalKind.State)]
    [InlineData(JournalKind.Done)]
    [InlineData(JournalKind.End)]
    public void Every_entry_that_tells_of_the_work_counts_and_one_that_does_not_changes_nothing(JournalKind kind)
    {
        Assert.Equal(new JobPlace(2, 1), Of(Begin, Sent(4), Done(kind, 2, 1)).Known);
        Assert.Equal(new JobPlace(1, 5), Of(Begin, Sent(4), Done(JournalKind.Done, 1, 5), new JournalEntry(0, 0, kind)).Known);
    }

    [Fact]
    public void What_is_no_work_changes_nothing() => Assert.Equal(new JobPlace(1, 5), Of(Begin, Sent(4), Done(JournalKind.Done, 1, 5),
        new JournalEntry(0, 0, JournalKind.Command) { Records = 3 }, new JournalEntry(0, 0, JournalKind.Device), Done(JournalKind.Referenced, 0, 0)).Known);

    [Fact]
    public void The_parts_of_a_run_are_added_up_each_to_its_end_or_its_last_entry_and_the_job_from_its_start()
    {
        var noon = new DateTimeOffset(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);
        var parts = Of(Begin with { At = noon }, At(1, JournalKind.State, "Execute") with { Records = null }, At(2, JournalKind.State, "Starting"),
            At(3, JournalKind.State, "Execute"), At(5, JournalKind.End), At(50, JournalKind.Sealed), At(0, JournalKind.TakeUp),
            At(4, JournalKind.State, "Execute"), At(10, JournalKind.Command)).Parts;
        Assert.Equal((noon, 15.0, 9.0, 0), (parts.Began, parts.Seconds, parts.JobSeconds, parts.Settled.Count));
        Assert.Null(Of(Begin, At(3, JournalKind.End)).Parts.JobSeconds);
    }

    [Fact]
    public void What_was_in_doubt_each_time_is_kept_in_order()
    {
        var doubt = new SettledDoubt { Record = 1, Layer = 0, Cells = 0, RecordsAfter = 2, Decision = InDoubt.Skip };
        Assert.Equal([doubt, doubt with { Record = 2 }],
            Of(Begin, Restart(0, 0, 8) with { Doubt = doubt }, Restart(0, 0, 9), Restart(0, 0, 10) with { Doubt = doubt with { Record = 2 } }).Parts.Settled);
    }

    private static JournalEntry At(double seconds, JournalKind kind, string? state = null) =>
        new(0, seconds, kind) { State = state, Records = state is null ? null : 0, Cells = state is null ? null : 0 };

    [Fact]
    public void The_end_tells_the_outcome_and_a_run_that_was_taken_up_again_has_none()
    {
        var end = new JournalEntry(0, 0, JournalKind.End) { Outcome = "Aborted" };
        Assert.Equal(RunOutcome.Aborted, Of(Begin, end).Outcome);
        Assert.Null(Of(Begin, end with { Outcome = "Gone" }).Outcome);
        Assert.Null(Of(Begin, new JournalEntry(0, 0, JournalKind.State) { Outcome = "Aborted" }).Outcome);
        Assert.Null(Of(Begin, end, new JournalEntry(0, 0, JournalKind.TakeUp)).Outcome);
        Assert.Null(Of(Begin, end, Restart(0, 0, 8)).Outcome);
    }

    [Fact]
    public void A_restart_begins_a_course_of_its_own_and_keeps_what_was_worked_before()
    {
        var history = Of(Begin, Sent(4), Done(JournalKind.Done, 1, 1), Restart(1, 2, 9));
        Assert.Equal((9, 0, 0, 0), ((int)history.RunId, history.Sent, history.Records, history.Cells));
        Assert.Equal(new JobPlace(1, 2), history.Course.Start);
        Assert.Equal(13, Sum(history.WorkedBefore())); // the cell between was left out
        Assert.False(history.WorkedBefore().Has(new Cell(6, 3), 0));
        Assert.Equal(14, Sum(history.WorkedUpTo(new JobPlace(2, 0))));
    }

    [Fact]
    public void What_was_done_twice_is_worked_once()
    {
        var history = Of(Begin, Sent(4), Done(JournalKind.Done, 1, 2), Restart(1, 0, 9));
        Assert.Equal(12 + 3, Sum(history.WorkedUpTo(new JobPlace(2, 0))));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(65_536)]
    [InlineData(null)]
    public void A_number_that_no_run_can_have_is_refused_at_its_line(int? run) => Refused(
        $"journal, line 1: found Begin with {run?.ToString() ?? "nothing"}; allowed: 1 to 65535. The journal was changed or damaged: do not go on from it.",
        Begin with { Run = run });

    [Theory]
    [InlineData(1)]
    [InlineData(65_535)]
    public void The_least_and_the_greatest_number_of_a_run_are_taken(int run) => Assert.Equal(run, Of(Begin with { Run = run }).RunId);

    [Fact]
    public void Records_that_were_sent_become_no_fewer_and_no_more_than_the_job_has()
    {
        Assert.Equal(11, Of(Begin, Sent(4), Sent(4), Sent(11)).Sent);
        Refused("found Sent with 3; allowed: 4 to 11. ", Begin, Sent(4), Sent(3));
        Refused("found Sent with 12; allowed: 0 to 11. ", Begin, Sent(12));
        Refused("found Sent with nothing; allowed: 0 to 11. ", Begin, new JournalEntry(1, 0, JournalKind.Sent));
    }

    [Fact]
    public void Records_that_were_done_become_no_fewer_and_no_more_than_were_sent()
    {
        Assert.Equal(4, Of(Begin, Sent(4), Done(JournalKind.Done, 4, 0)).Records);
        Refused("journal, line 4: found Done with 1; allowed: 2 to 4. ", Begin, Sent(4), Done(JournalKind.Done, 2, 0),
            Done(JournalKind.Done, 1, 0) with { N = 3 });
        Refused("found Done with 5; allowed: 0 to 4. ", Begin, Sent(4), Done(JournalKind.Done, 5, 0));
        Refused("found Done with -1; allowed: 0 to 2147483647. ", Begin, Sent(4), Done(JournalKind.Done, 1, -1));
    }

    [Fact]
    public void What_is_sent_again_after_the_run_was_taken_up_may_begin_with_less_than_had_been_sent()
    {
        var takenUp = new JournalEntry(2, 0, JournalKind.TakeUp) { Records = 8 };
        Assert.Equal(8, Of(Begin, Sent(8), takenUp, Sent(5)).Sent);
        Assert.Equal(10, Of(Begin, Sent(8), takenUp, Sent(5), Sent(10)).Sent);
        Refused("found Sent with 5; allowed: 8 to 11. ", Begin, Sent(8), Sent(5));
        Refused("found Sent with 5; allowed: 6 to 11. ", Begin, Sent(8), takenUp, Restart(0, 0, 8), Sent(6), Sent(5));
    }

    [Fact]
    public void A_restart_beyond_the_job_is_refused()
    {
        Assert.Equal(11, Of(Begin, Restart(11, 0, 8)).Course.Start.Records);
        Refused("found Restart with 12; allowed: 0 to 11. ", Begin, Restart(12, 0, 8));
        Refused("found Restart with -1; allowed: 0 to 11. ", Begin, Restart(-1, 0, 8));
        Refused("found Restart with -1; allowed: 0 to 2147483647. ", Begin, Restart(0, -1, 8));
        Refused("found Restart with 0; allowed: 1 to 65535. ", Begin, Restart(0, 0, 0));
    }

    [Fact]
    public void A_file_that_was_changed_since_is_named_with_both_digests_and_what_to_do()
    {
        Refused($"journal, line 1: found a run with the machine file 00; allowed: the one beside it, {Job.Machine.Digest}. "
            + "The machine file in the run's folder was changed: put the old one back, or run the job from its beginning.",
            Begin with { MachineDigest = "00" });
        Refused($"found a run with the job that is not named; allowed: the one beside it, {Job.JobDigest}. The job in", Begin with { JobDigest = null });
    }

    private static RunHistory Of(params JournalEntry[] entries) => RunHistory.Of(new JournalFile(entries, 0, null), "journal", Job);

    private static void Refused(string words, params JournalEntry[] entries) =>
        Assert.Contains(words, Assert.Throws<RefusedException>(() => Of(entries)).Message);

    private static JournalEntry Sent(long records) => new(1, 0, JournalKind.Sent) { Records = records };

    private static JournalEntry Done(JournalKind kind, long records, long cells) => new(2, 0, kind) { Records = records, Cells = cells };

    private static JournalEntry Restart(long records, long cells, int run) => new(3, 0, JournalKind.Restart) { Records = records, Cells = cells, Run = run };

    private static long Sum(WorkedCells worked) => worked.Counts.A + worked.Counts.B;
}
