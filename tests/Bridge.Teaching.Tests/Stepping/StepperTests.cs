using Bridge.Jobs;
using CsCheck;

namespace Bridge.Teaching.Tests;

public class StepperTests
{
    [Fact]
    public void Cell_by_cell_it_works_what_the_interpreter_works()
    {
        foreach (var job in new[] { TestJobs.RowAndPatch, TestJobs.Repeating })
        {
            var stepper = new Stepper(job.Image, job.Grid);
            var interpreter = new Interpreter(job.Image, job.Grid);
            while (stepper.Cell() is { } done)
                foreach (var cell in done.Worked())
                {
                    Assert.True(interpreter.MoveNext());
                    Assert.Equal(interpreter.Current, new WorkedCell(cell, stepper.Stop.Position.Layer, stepper.Stop.Position.Head, done.Index));
                }

            Assert.False(interpreter.MoveNext());
            Assert.True(stepper.Stop.IsComplete);
        }
    }

    [Fact]
    public void A_stop_tells_position_counter_and_what_comes_next()
    {
        var stepper = new Stepper(TestJobs.RowAndPatch.Image, TestJobs.Gantry.Grid);
        Assert.Equal((0, null), (stepper.Stop.Next, stepper.Stop.Index));
        stepper.Cell();
        stepper.Cell();
        Assert.Equal(new Position(new Cell(2, 2), 0, Head.A), stepper.Stop.Position);
        Assert.Equal((3L, 0, 1), (stepper.Stop.CellsLeft, stepper.Stop.Index, stepper.Stop.Next));
        Assert.True(stepper.Picture.Has(new Cell(1, 2), Head.A) && stepper.Picture.Has(new Cell(2, 2), Head.A));
        Assert.False(stepper.Picture.Has(new Cell(3, 2), Head.A));
        stepper.Record();
        Assert.Equal((0, 1), (stepper.Stop.CellsLeft, stepper.Stop.Next));
        stepper.Cell();
        Assert.Equal((new Position(new Cell(10, 3), 1, Head.B), 1), (stepper.Stop.Position, stepper.Picture.Layer));
        Assert.False(stepper.Picture.Has(new Cell(1, 2), Head.A));
    }

    [Fact]
    public void An_again_is_a_step_that_fills_the_repeat_memory()
    {
        var stepper = new Stepper(TestJobs.Repeating.Image, TestJobs.Plotter.Grid);
        for (var record = 0; record < 3; record++)
            stepper.Record();
        Assert.Equal((3, null), (stepper.Stop.Next, stepper.Stop.Repeat));
        Assert.Null(stepper.Record()!.Value.Pass);
        Assert.Equal((1, new Repeat(First: 1, Again: 3, RoundsLeft: 1)), (stepper.Stop.Next, stepper.Stop.Repeat));
        stepper.Record();
        stepper.Record();
        Assert.Equal((1, new Repeat(1, 3, 0)), (stepper.Stop.Next, stepper.Stop.Repeat));
        stepper.Record();
        stepper.Record();
        Assert.Equal((4, null), (stepper.Stop.Next, stepper.Stop.Repeat));
    }

    [Fact]
    public void Back_to_any_place_is_to_be_as_when_it_was_there()
    {
        var stepper = new Stepper(TestJobs.Repeating.Image, TestJobs.Plotter.Grid);
        var seen = new List<string> { Look(stepper) };
        while (stepper.Cell() is not null)
            seen.Add(Look(stepper));
        var random = new Random(3);
        for (var round = 0; round < 300; round++)
        {
            var ticks = random.Next(seen.Count);
            if (ticks <= stepper.Ticks)
                stepper.BackToTicks(ticks);
            else
                while (stepper.RecordUpTo(ticks) is not null)
                {
                }

            Assert.Equal(seen[ticks], Look(stepper));
        }
    }

    [Fact]
    public void In_a_long_job_of_many_layers_back_is_where_it_was_whatever_the_snapshots()
    {
        var grid = new Grid(64, 64, 40);
        var records = new List<Record>();
        for (var layer = 0; layer < 40; layer++)
            for (var part = 0; part < 5; part++)
                records.Add(Record.Patch((Head)(part & 1), new Cell(part * 3, layer), 40, 20, default, rise: part == 0 && layer > 0));
        var image = Image.Of(RecordWidth.Eight, [.. records, Record.End]);
        var (stepper, once) = (new Stepper(image, grid), new Stepper(image, grid));
        while (stepper.Record() is not null)
        {
        }

        Gen.Long[0, stepper.Ticks].Sample(
            ticks =>
            {
                while (once.RecordUpTo(ticks) is not null)
                {
                }

                if (once.Ticks > ticks)
                    once.BackToTicks(ticks);
                var fresh = new Stepper(image, grid);
                while (fresh.RecordUpTo(ticks) is not null)
                {
                }

                Assert.Equal(Look(fresh), Look(once));
            }, seed: "0N0XIzNsQ0O2", iter: 30, threads: 1);
    }

    [Fact]
    public void Back_by_records_goes_to_their_beginnings_and_no_further_than_the_job()
    {
        var stepper = new Stepper(TestJobs.RowAndPatch.Image, TestJobs.Gantry.Grid);
        stepper.Record();
        stepper.Cell();
        stepper.Cell();
        stepper.BackRecords(1);
        Assert.Equal((5, 1), (stepper.Ticks, stepper.Stop.Next));
        stepper.BackRecords(1);
        Assert.Equal((0, 0), (stepper.Ticks, stepper.Stop.Next));
        stepper.BackRecords(7);
        Assert.Equal(0, stepper.Ticks);
    }

    [Fact]
    public void Back_by_a_layer_stops_before_the_record_that_rose()
    {
        var up = Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 2, rise: true);
        var job = TestJobs.Of(TestJobs.Gantry, up with { Rise = false }, up, up, Record.End);
        var stepper = new Stepper(job.Image, job.Grid);
        while (stepper.Cell() is not null)
        {
        }

        foreach (var (ticks, layer) in new[] { (4, 1), (2, 0), (0, 0), (0, 0) })
        {
            stepper.BackLayer();
            Assert.Equal((ticks, layer, layer), (stepper.Ticks, stepper.Stop.Position.Layer, stepper.Picture.Layer));
        }
    }

    [Fact]
    public void It_runs_to_where_a_condition_holds_and_says_where_it_never_does()
    {
        var stepper = new Stepper(TestJobs.RowAndPatch.Image, TestJobs.Gantry.Grid);
        Assert.True(stepper.RunTo(StepCondition.Parse("x = 4")));
        Assert.Equal(new Cell(4, 2), stepper.Stop.Position.Cell);
        Assert.True(stepper.RunTo(StepCondition.Parse("head b works and left<=5")));
        Assert.Equal((new Cell(11, 2), 5), (stepper.Stop.Position.Cell, stepper.Stop.CellsLeft));
        Assert.False(stepper.RunTo(StepCondition.Parse("layer = 7")));
        Assert.True(stepper.Stop.IsComplete);
    }

    [Theory]
    [InlineData("")]
    [InlineData("x")]
    [InlineData("x = seven")]
    [InlineData("x = -1")]
    [InlineData("x == 7")]
    [InlineData("z = 7")]
    [InlineData("head c works")]
    [InlineData("x = 7 and")]
    [InlineData("head b works always")]
    public void What_is_no_condition_is_refused_with_the_forms(string text)
    {
        var refused = Assert.Throws<RefusedException>(() => StepCondition.Parse(text));
        Assert.Equal(StepCondition.Forms, Assert.Single(refused.Refusals).Allowed);
    }

    [Fact]
    public void A_jump_goes_on_from_where_the_machine_is_and_can_be_taken_back()
    {
        var stepper = new Stepper(TestJobs.Repeating.Image, TestJobs.Plotter.Grid);
        while (stepper.Stop.Repeat is null)
            stepper.Record();
        stepper.Cell();
        var before = Look(stepper);
        Assert.True(stepper.TryJump(5));
        Assert.Equal((new Cell(0, 2), 5, null), (stepper.Stop.Position.Cell, stepper.Stop.Next, stepper.Stop.Repeat));
        Assert.Equal([new Cell(1, 2), new Cell(2, 2), new Cell(3, 3), new Cell(4, 3), new Cell(5, 3)], stepper.Record()!.Value.Worked());
        Assert.True(stepper.Stop.IsComplete);
        stepper.BackRecords(2);
        Assert.Equal(before, Look(stepper));
        stepper.Record();
        Assert.Equal(2, stepper.Stop.Index);
    }

    [Fact]
    public void A_record_that_may_not_be_done_is_a_fault_that_going_back_forgets()
    {
        var job = TestJobs.Of(TestJobs.Plotter, "401204" + "40F00F" + "000000");
        var stepper = new Stepper(job.Image, job.Grid);
        stepper.Record();
        Assert.Null(stepper.Cell());
        Assert.Equal(JobRule.OffGrid, stepper.Stop.Fault!.Rule);
        Assert.False(stepper.Stop.IsComplete);
        stepper.BackRecords(1);
        Assert.Null(stepper.Stop.Fault);
    }

    private static string Look(Stepper stepper)
    {
        var grid = stepper.Grid;
        var cells = from y in Enumerable.Range(0, grid.Y)
                    from x in Enumerable.Range(0, grid.X)
                    let cell = new Cell(x, y)
                    where stepper.Picture.Has(cell, Head.A) || stepper.Picture.Has(cell, Head.B)
                    select $"{cell}{stepper.Picture.Has(cell, Head.A)}{stepper.Picture.Has(cell, Head.B)}";
        return $"{stepper.Ticks} {stepper.Stop} {string.Join(' ', cells)}";
    }
}
