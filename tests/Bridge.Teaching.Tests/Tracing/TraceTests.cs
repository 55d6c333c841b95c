using System.Diagnostics;
using System.Text;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.Teaching.Tests;

public class TraceTests
{
    private const int Execute = 6; // ISA-TR88.00.02
    private const int Aborted = 9;
    private const int Complete = 17;
    private const double TicksPerSecond = 1e7; // of 100 ns

    [Fact]
    public void A_row_makes_the_steps_of_its_way_and_counts_its_cells()
    {
        var dump = OfModel(TestJobs.Of(TestJobs.Gantry, "401204" + "000000"), TestJobs.Gantry);
        // 4 mm to a cell, 80 steps to a mm: five cells along X from 0; along Y two cells, and 0.05 mm of play, because Y last moved down, from its endstop.
        Assert.Equal((5 * 320, 2 * 320 + 4, 0), (dump.When("step_x", 1).Count(), dump.When("step_y", 1).Count(), dump.When("step_z", 1).Count()));
        Assert.Equal([0, 5, 4, 3, 2, 1, 0], new long[] { 0 }.Concat(dump["counter"].Select(change => change.Value)).ToArray()[..7]);
        Assert.Equal([0, 1, 2, 3, 4, 5], dump["x"].Select(change => change.Value));
        Assert.Equal((0, Complete), (dump["record"][^1].Value, dump["state"][^1].Value));
        Assert.Equal("100ns", dump.Timescale);
    }

    [Fact]
    public void A_cell_is_counted_when_the_motion_model_has_it_worked_and_the_end_is_the_timetable_s()
    {
        foreach (var (job, machine) in new[] { (TestJobs.RowAndPatch, TestJobs.Gantry), (TestJobs.Repeating, TestJobs.Plotter) })
        {
            var dump = OfModel(job, machine);
            var expected = CellTimes(job.Image, machine).Select(seconds => (long)Math.Round(seconds * TicksPerSecond)).Distinct().ToList();
            var worked = dump["counter"].Skip(1).Where((change, index) => change.Value == dump["counter"][index].Value - 1).Select(change => change.Ticks);
            Assert.Empty(worked.Except(expected));
            Assert.Equal((long)Math.Round(Timetable.Of(job.Image, machine).Seconds * TicksPerSecond), dump["state"][^1].Ticks);
        }
    }

    [Fact]
    public void Steps_lead_to_where_the_machine_is_and_each_is_low_before_the_next()
    {
        var machine = TestJobs.Gantry with { X = TestJobs.Gantry.X with { BacklashMm = 0 }, Y = TestJobs.Gantry.Y with { BacklashMm = 0 } };
        var dump = OfModel(TestJobs.RowAndPatch, machine);
        // The last cell is (13, 3) on layer 1 by head b, which stands 25 mm to the left.
        Assert.Equal((13 * 320 + 25 * 80, 3 * 320, 2 * 400), (Count(dump, "x"), Count(dump, "y"), Count(dump, "z")));
        foreach (var axis in new[] { "step_x", "step_y", "step_z" })
            foreach (var (rise, fall) in dump.When(axis, 1).Zip(dump.When(axis, 0).Skip(1)))
                Assert.Equal(SignalTrace.PulseTicks, fall - rise);
    }

    [Fact]
    public void Of_dots_the_head_works_for_the_time_of_a_dot_and_a_pen_from_lowered_to_lifted()
    {
        var dump = OfModel(TestJobs.Of(TestJobs.Gantry, "401204" + "000000"), TestJobs.Gantry);
        var dots = dump.When("work", 1).Zip(dump.When("work", 0).Skip(1)).ToList();
        Assert.Equal(5, dots.Count);
        Assert.All(dots, dot => Assert.Equal(0.4 * TicksPerSecond, dot.Second - dot.First, 1.0));
        dump = OfModel(TestJobs.Of(TestJobs.Plotter, "400004" + "000000"), TestJobs.Plotter);
        Assert.Equal((1, 2), (dump.When("work", 1).Count(), dump.When("work", 0).Count()));
    }

    [Fact]
    public void The_mock_device_makes_the_steps_of_the_model_while_it_executes()
    {
        var job = ProvedJob.Of(TestJobs.Repeating, TestJobs.Plotter);
        var (model, mock) = (OfModel(job.Job, job.Machine), OfMock(job, MockFaults.None));
        var (from, to) = (mock.When("state", Execute).First(), mock.When("state", Complete).Single());
        foreach (var axis in new[] { "step_x", "step_y" })
            Assert.Equal(model.When(axis, 1).Count(), mock.When(axis, 1).Count(ticks => ticks >= from && ticks <= to));
        Assert.Equal(model["record"].Select(change => change.Value), mock["record"].Select(change => change.Value).Take(model["record"].Count));
        Assert.Equal((1, 1), (mock.When("end_x", 1).Count(), mock.When("end_y", 1).Count())); // each endstop was found once
    }

    [Fact]
    public void After_the_e_stop_no_step_is_made()
    {
        var dump = OfMock(ProvedJob.Of(TestJobs.RowAndPatch, TestJobs.Gantry), MockFaults.Parse("estop-at=3"));
        var pressed = dump.When("e_stop", 1).Single();
        Assert.Equal((2, Aborted), (dump.At("counter", pressed), dump["state"][^1].Value));
        foreach (var axis in new[] { "step_x", "step_y", "step_z" })
            Assert.DoesNotContain(dump.When(axis, 1), ticks => ticks > pressed);
    }

    [Fact]
    public void A_trace_of_some_records_ends_with_them()
    {
        var dump = Dump.Read(Written(stream => ModelTrace.Write(TestJobs.Repeating.Image, TestJobs.Plotter, mostPasses: 2, stream)));
        Assert.Equal([0, 1], dump["record"].Select(change => change.Value));
    }

    [Fact]
    public void Steps_too_fast_to_be_shown_are_refused_with_the_axis()
    {
        var machine = TestJobs.Plotter with { Y = TestJobs.Plotter.Y with { TopSpeedMmS = 10_000, StepsPerMm = 1000 } };
        var refused = Assert.Throws<RefusedException>(() => Written(stream => ModelTrace.Write(TestJobs.Repeating.Image, machine, long.MaxValue, stream)));
        Assert.Equal("axes.y", Assert.Single(refused.Refusals).Place);
    }

    [Fact]
    public void A_job_that_breaks_off_is_traced_up_to_there()
    {
        var job = TestJobs.Of(TestJobs.Plotter, "401204" + "40F00F" + "000000");
        JobFault? fault = null;
        var dump = Dump.Read(Written(stream => fault = ModelTrace.Write(job.Image, TestJobs.Plotter, long.MaxValue, stream)));
        Assert.Equal(1, fault!.Index);
        Assert.Equal((0, 5), (dump["counter"][^1].Value, dump["x"][^1].Value));
    }

    [Fact]
    public void A_machine_of_two_axes_has_no_lines_of_a_third()
    {
        var dump = OfModel(TestJobs.Repeating, TestJobs.Plotter);
        Assert.Equal(
            ["counter", "dir_x", "dir_y", "e_stop", "end_x", "end_y", "head", "layer", "record", "state", "step_x", "step_y", "work", "x", "y"], dump.Names);
    }

    [GtkWaveFact]
    public void Debian_s_tools_read_every_line_and_give_back_the_same_changes()
    {
        var job = ProvedJob.Of(TestJobs.RowAndPatch, TestJobs.Gantry);
        foreach (var text in new[]
        {
            Written(stream => ModelTrace.Write(job.Job.Image, job.Machine, long.MaxValue, stream)),
            Written(stream => MockTrace.Write(job, MockFaults.Parse("estop-at=7"), seed: 3, long.MaxValue, stream)),
        })
            Assert.Equal(Dump.Read(text).Content(), Dump.Read(RoundTrip(text)).Content());
    }

    private static Dump OfModel(JobFile job, Machine machine) =>
        Dump.Read(Written(stream => Assert.Null(ModelTrace.Write(job.Image, machine, long.MaxValue, stream))));

    private static Dump OfMock(ProvedJob job, MockFaults faults) =>
        Dump.Read(Written(stream => MockTrace.Write(job, faults, seed: 1, long.MaxValue, stream)));

    private static string Written(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static long Count(Dump dump, string axis) => dump.When($"step_{axis}", 1).Sum(ticks => dump.At($"dir_{axis}", ticks) == 1 ? 1 : -1);

    private static IEnumerable<double> CellTimes(Image image, Machine machine)
    {
        var reader = new ActingReader(image, machine);
        for (var now = 0.0; reader.TryNext(out _, out var acts);)
            foreach (var act in acts)
            {
                for (var cell = 1; cell <= act.Cells; cell++)
                    yield return now + act.SecondsAtCell(cell);
                now += act.Seconds;
            }
    }

    // The tools end well on whatever they are given: only what they give back tells.
    private static string RoundTrip(string text)
    {
        var folder = Directory.CreateTempSubdirectory("bridge-trace-").FullName;
        try
        {
            var (vcd, fst) = (Path.Combine(folder, "a.vcd"), Path.Combine(folder, "a.fst"));
            File.WriteAllText(vcd, text);
            Tool("vcd2fst", vcd, fst);
            return Tool("fst2vcd", "-f", fst);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Tool(string name, params string[] args)
    {
        using var process = Process.Start(new ProcessStartInfo(name, args) { RedirectStandardOutput = true })!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return said;
    }
}
