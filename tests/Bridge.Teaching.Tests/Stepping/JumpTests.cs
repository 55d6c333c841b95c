using Bridge.Jobs;

namespace Bridge.Teaching.Tests;

public class JumpTests
{
    [Fact]
    public void A_jump_ahead_says_what_is_passed_over_and_stays_unworked()
    {
        var stepper = new Stepper(TestJobs.Repeating.Image, TestJobs.Plotter.Grid);
        stepper.Record();
        var told = JumpConsequences.Of(stepper, 4);
        // The row and the column of head b once and twice more, and the `again` is none: six records of three different cells.
        Assert.Equal((6L, 3L, 0L, null), (told.PassedOver, told.Missing, told.Extra, told.Layers));
        Assert.Contains("6 records are passed over", told.Lines().First());
        Assert.Equal(1, stepper.Stop.Next);
    }

    [Fact]
    public void A_jump_over_a_rise_says_on_which_layer_the_rest_comes()
    {
        var up = Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 2, rise: true);
        var job = TestJobs.Of(TestJobs.Gantry, up with { Rise = false }, up, up, Record.End);
        var stepper = new Stepper(job.Image, job.Grid);
        stepper.Cell();
        var told = JumpConsequences.Of(stepper, 2);
        Assert.Equal((1, 0), told.Layers);
        Assert.Equal((1L, 1L), (told.PassedOver, told.CellsLeft));
        Assert.Equal((3L, 0L), (told.Missing, told.Extra)); // (1, 0) on layer 0 and the whole of layer 2; what was of layer 2 is now layer 1
        Assert.Contains("on layer 0 in place of layer 1", string.Join('\n', told.Lines()));
    }

    [Fact]
    public void A_jump_back_says_what_is_worked_again_and_what_breaks_off()
    {
        var top = Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 4, rise: true);
        var job = TestJobs.Of(TestJobs.Plotter, top with { Rise = false }, Record.Row(RecordWidth.Four, Head.A, new Cell(0, 1), 0, 2), Record.End);
        var stepper = new Stepper(job.Image, job.Grid);
        stepper.Record();
        var told = JumpConsequences.Of(stepper, 0);
        Assert.Equal((null, 4L, 4L, 0L), (told.PassedOver, told.Extra, told.Again, told.Missing));

        job = TestJobs.Of(TestJobs.Gantry, Enumerable.Repeat(top, 15).Append(Record.End).ToList());
        stepper = new Stepper(job.Image, job.Grid);
        stepper.Record();
        Assert.Equal(JobRule.AboveTopLayer, JumpConsequences.Of(stepper, 0).Fault!.Rule);
    }

    [Fact]
    public void What_a_jump_says_is_what_it_does()
    {
        var random = new Random(11);
        for (var round = 0; round < 100; round++)
        {
            var stepper = new Stepper(TestJobs.Repeating.Image, TestJobs.Plotter.Grid);
            for (var steps = random.Next(12); steps > 0; steps--)
                stepper.Cell();
            var told = JumpConsequences.Of(stepper, random.Next(TestJobs.Repeating.Image.Count));
            var (natural, jumped) = (Rest(stepper), Rest(stepper, told.To));
            Assert.Equal((natural.Except(jumped).Count(), jumped.Except(natural).Count()), ((int)told.Missing!.Value, (int)told.Extra!.Value));
        }
    }

    private static HashSet<(Cell, int, Head)> Rest(Stepper stepper, int? jump = null)
    {
        var ticks = stepper.Ticks;
        if (jump is { } to)
            stepper.TryJump(to);
        var cells = new HashSet<(Cell, int, Head)>();
        while (stepper.Record() is { } done)
            foreach (var cell in done.Worked())
                cells.Add((cell, done.Pass!.Value.Entry.Layer, done.Pass.Value.Entry.Head));
        stepper.BackToTicks(ticks);
        return cells;
    }
}
