using Bridge.Jobs;
using CsCheck;

namespace Bridge.Motion.Tests;

public class TimetableTests
{
    private static readonly RecordWidth N = RecordWidth.Four;
    private static readonly Machine Plotter = TestMachines.Of(TestMachines.Pen(), z: TestMachines.Axis(pitch: 5));

    [Fact] // go 100 mm: 2.25 s; lower 0.25; row 10 mm: 0.447214; lift 0.125.
    public void A_job_takes_the_sum_of_what_it_does()
    {
        var image = TestMachines.Image(Record.Go(Head.A, new Cell(10, 0)), Record.Row(N, Head.A, new Cell(10, 0), 0, 2));
        var table = Timetable.Of(image, Plotter);
        Assert.Equal(2.25 + 0.25 + 0.447214 + 0.125, table.Seconds, 6);
        Assert.Equal([2.25, 0.697214, 0.125], table.SecondsPerRecord.Select(seconds => Math.Round(seconds, 6)));
        Assert.Equal((100.0, 10.0, 2L, 2L), (table.IdleMm, table.WorkMm, table.Cells, table.Passes));
        Assert.Null(table.Fault);
    }

    [Fact]
    public void Time_is_told_by_layer_and_a_rise_counts_for_the_layer_above()
    {
        var table = Timetable.Of(TestMachines.Image(Record.Wait(N, 10), Record.Wait(N, 20, rise: true), Record.WaitForOperator()), Plotter);
        Assert.Equal(1, table.SecondsPerLayer[0], 9);
        Assert.Equal(2 + 2 * Math.Sqrt(5.0 / 200), table.SecondsPerLayer[1], 9);
        Assert.Equal(16, table.SecondsPerLayer.Count);
        Assert.Equal(1, table.OperatorHolds);
    }

    [Fact]
    public void Repeats_count_for_the_record_that_is_repeated()
    {
        var table = Timetable.Of(TestMachines.Image(Record.Wait(N, 10), Record.Again(N, 1, 9)), Plotter);
        Assert.Equal([10, 0, 0], table.SecondsPerRecord);
        Assert.Equal(10, table.Passes);
    }

    [Fact]
    public void A_fault_ends_the_timetable_where_it_is()
    {
        var table = Timetable.Of(TestMachines.Image(Record.Wait(N, 10), Record.Row(N, Head.A, new Cell(15, 0), 0, 2)), Plotter);
        Assert.Equal(1, table.Seconds, 9);
        Assert.Equal((JobRule.OffGrid, 1), (table.Fault!.Rule, table.Fault.Index));
    }

    [Fact]
    public void A_head_that_the_machine_lacks_is_a_fault()
    {
        var table = Timetable.Of(TestMachines.Image(Record.Go(Head.B, new Cell(1, 0))), Plotter);
        Assert.Equal((JobRule.NoSuchHead, 0.0), (table.Fault!.Rule, table.Seconds));
    }

    [Fact]
    public void A_countdown_starts_with_all_the_time_and_ends_with_none()
    {
        var image = TestMachines.Image(Record.Wait(N, 10), Record.Row(N, Head.A, new Cell(10, 0), 0, 2));
        var countdown = Countdown.Of(image, Plotter)!;
        Assert.Equal(Timetable.Of(image, Plotter).Seconds, countdown.Seconds, 9);
        Assert.Equal(countdown.Seconds, countdown.SecondsLeft(0, 0));
        Assert.Equal(countdown.Seconds - 1, countdown.SecondsLeft(1, 0), 9);
        Assert.Equal((2, 0.0, 0.0), (countdown.Passes, countdown.SecondsLeft(2, 2), countdown.SecondsLeft(long.MaxValue, 9)));
    }

    [Fact]
    public void Within_a_record_a_countdown_goes_on_with_its_cells()
    {
        var image = TestMachines.Image(Record.Row(N, Head.A, new Cell(0, 0), 0, 4), Record.Row(N, Head.A, new Cell(10, 0), 0, 2));
        var countdown = Countdown.Of(image, Plotter)!;
        var first = countdown.Seconds - countdown.SecondsLeft(1, 4);
        Assert.Equal(countdown.Seconds - first / 4, countdown.SecondsLeft(0, 1), 9);
        Assert.Equal(countdown.Seconds - first, countdown.SecondsLeft(0, 99), 9); // more cells than it has are not those of the next
        Assert.Equal(countdown.SecondsLeft(1, 4), countdown.SecondsLeft(1, 0), 9);
    }

    [Fact]
    public void A_faulty_or_endless_job_has_no_countdown()
    {
        Assert.Null(Countdown.Of(TestMachines.Image(Record.Go(Head.B, new Cell(1, 0))), Plotter));
        var wide = TestMachines.Of(TestMachines.Pen(), width: RecordWidth.Twelve);
        var endless = Image.Of(RecordWidth.Twelve, [Record.Wait(RecordWidth.Twelve, 0), Record.Again(RecordWidth.Twelve, 1, 1_000_000), Record.End]);
        Assert.Null(Countdown.Of(endless, wide));
    }

    [Fact]
    public void Every_job_works_as_many_cells_in_its_timetable_as_the_interpreter_gives() =>
        Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte).Array[1, 30].Select(Gen.Bool).Sample((raw, dots) =>
        {
            var bytes = raw.SelectMany(record => new[] { record.Item1, record.Item2, record.Item3 }).ToArray();
            if (!TryImage(bytes, out var image))
                return;
            var head = dots ? TestMachines.Dot() : TestMachines.Pen();
            var machine = TestMachines.Of(head, head, TestMachines.Axis(backlash: 0.1), z: TestMachines.Axis());
            var cells = new Interpreter(image, machine.Grid);
            var count = 0L;
            while (cells.MoveNext())
                count++;
            var table = Timetable.Of(image, machine);
            Assert.Equal((count, cells.Fault), (table.Cells, table.Fault));
            Assert.Equal(table.SecondsPerRecord.Sum(), table.Seconds, 1e-6 * (1 + table.Seconds));
        }, iter: 2000);

    private static bool TryImage(byte[] bytes, out Image image)
    {
        image = null!;
        if (bytes.Length >= 3 && bytes.AsSpan(0, 3).ContainsAnyExcept((byte)0) && Enumerable.Range(0, bytes.Length / 3)
                .All(at => bytes.AsSpan(3 * at, 3).ContainsAnyExcept((byte)0)))
            image = Image.Parse(N, bytes, "test");
        return image is not null;
    }
}
