namespace Bridge.Jobs.Tests;

public class JobProofTests
{
    private static readonly RecordWidth Width = RecordWidth.Four;

    [Fact]
    public void A_good_job_is_proved_and_its_cells_are_counted_by_head()
    {
        var proof = JobProof.Of(Job(Row(0, 0, 5), Patch(Head.B, 0, 1, 4, 2), Record.End), Machines.Gantry);
        Assert.True(proof.IsProved);
        Assert.Empty(proof.Cautions);
        Assert.Equal((5, 8, 1, 2), (proof.WorkedByA, proof.WorkedByB, proof.Layers, proof.Passes));
    }

    [Fact]
    public void A_job_planned_with_another_machine_file_is_refused()
    {
        var job = Job(Row(0, 0, 5), Record.End) with { Machine = MachineDigest.Of("another"u8) };
        Assert.Equal(JobRule.OtherMachine, Only(job, Machines.Gantry).Rule);
    }

    [Fact]
    public void A_job_planned_for_another_grid_or_another_width_is_refused()
    {
        Assert.Equal(JobRule.OtherGeometry, Only(Job(Row(0, 0, 5), Record.End) with { Grid = new Grid(16, 16, 15) }, Machines.Gantry).Rule);
        Assert.Equal(JobRule.OtherGeometry, Only(Job(Row(0, 0, 5), Record.End), Machines.Gantry with { Width = RecordWidth.Eight }).Rule);
    }

    [Fact]
    public void An_image_one_record_larger_than_the_store_is_refused_and_one_that_fills_it_needs_no_end()
    {
        var full = Enumerable.Range(0, 85).Select(at => Row(at % 16, at / 16, 1)).ToArray();
        Assert.True(JobProof.Of(Job(full), Machines.Gantry).IsProved);
        var fault = Only(Job([.. full, Record.End]), Machines.Gantry);
        Assert.Equal((JobRule.LargerThanStore, -1), (fault.Rule, fault.Index));
        Assert.Contains("258 bytes (86 records)", fault.ToString());
    }

    [Fact]
    public void An_image_that_stops_without_end_in_a_store_with_room_is_refused()
    {
        var fault = Only(Job(Row(0, 0, 5)), Machines.Gantry);
        Assert.Equal((JobRule.NoEnd, -1), (fault.Rule, fault.Index));
    }

    [Fact]
    public void An_image_of_another_width_is_refused_as_a_whole()
    {
        var fault = Assert.Single(JobProof.Of(Job(Row(0, 0, 5), Record.End).Image, Machines.Gantry with { Width = RecordWidth.Eight }).Faults);
        Assert.Equal((JobRule.OtherGeometry, -1), (fault.Rule, fault.Index));
    }

    [Fact]
    public void Of_many_cells_that_could_fall_a_thousand_are_named()
    {
        var machine = Machines.Gantry with { X = Machines.Gantry.X with { Cells = 40 }, Y = Machines.Gantry.Y with { Cells = 40 } };
        var (present, below) = (new LayerCells(machine.Grid), new LayerCells(machine.Grid));
        for (var at = 0; at < 40 * 40; at++)
            present.Add(new Cell(at % 40, at / 40));
        var refusal = Overhang.Refusal(machine, 1, present, below)!;
        Assert.Contains("1600 cells with nothing below them, the first (0, 0)", refusal.Found);
        Assert.Equal((1000, (1, new Cell(39, 24))), (refusal.Cells.Count, refusal.Cells[^1]));
    }

    [Fact]
    public void A_cell_worked_twice_is_refused_where_overprint_is_forbidden_and_named()
    {
        var job = Job(Row(0, 0, 5), Patch(Head.B, 4, 0, 2, 2), Record.End);
        var fault = Only(job, Machines.Gantry);
        Assert.Equal((JobRule.WorkedTwice, 1), (fault.Rule, fault.Index));
        Assert.Contains("cell (4, 0) on layer 0", fault.ToString());
        Assert.True(JobProof.Of(job, Machines.Gantry with { MayOverprint = true }).IsProved);
    }

    [Fact]
    public void The_same_cell_on_another_layer_is_another_cell() =>
        Assert.True(JobProof.Of(Job(Row(0, 0, 5), Row(0, 0, 5) with { Rise = true }, Record.End), Machines.Gantry).IsProved);

    [Fact]
    public void A_head_that_the_machine_lacks_is_refused_once()
    {
        var job = Job(Patch(Head.B, 0, 0, 2, 2), Patch(Head.B, 4, 0, 2, 2), Record.End);
        Assert.Equal(JobRule.NoSuchHead, Only(job, Machines.Gantry with { B = null }).Rule);
    }

    [Theory]
    [InlineData(0, 2)]
    [InlineData(1, 0)]
    public void What_sticks_out_further_than_the_machine_holds_is_a_caution_on_its_layer(int overhang, int cautioned)
    {
        var machine = Machines.Gantry with { OverhangCells = overhang };
        var proof = JobProof.Of(Job(Row(3, 3, 2), Row(2, 3, 4) with { Rise = true }, Record.End), machine);
        Assert.True(proof.IsProved);
        Assert.Equal(cautioned > 0 ? 1 : 0, proof.Cautions.Count);
        Assert.All(proof.Cautions, caution => Assert.Contains(
            $"layer 1: found {cautioned} cells with nothing below them, the first (2, 3)", caution.ToString()));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(15, 0)]
    [InlineData(0, 15)]
    [InlineData(15, 15)]
    [InlineData(7, 8)]
    public void A_cell_rests_on_any_cell_below_it_within_the_overhang_also_at_the_edge(int x, int y)
    {
        for (var belowY = 0; belowY < 16; belowY++)
            for (var belowX = 0; belowX < 16; belowX++)
            {
                var rests = Math.Abs(belowX - x) <= 1 && Math.Abs(belowY - y) <= 1;
                var job = Job(Row(belowX, belowY, 1), Row(x, y, 1) with { Rise = true }, Record.End);
                var proof = JobProof.Of(job, Machines.Gantry with { OverhangCells = 1 });
                Assert.Equal(rests ? 0 : 1, proof.Cautions.Count);
                Assert.Equal(2, proof.Layers);
            }
    }

    [Fact]
    public void One_cell_with_nothing_below_is_named()
    {
        var proof = JobProof.Of(Job(Row(3, 3, 1), Row(9, 4, 1) with { Rise = true }, Record.End), Machines.Gantry);
        Assert.Contains("layer 1: found cell (9, 4) with nothing below it; allowed: a cell below within", Assert.Single(proof.Cautions).ToString());
    }

    [Fact]
    public void Pens_draw_on_one_sheet_and_leave_nothing_that_could_fall() =>
        Assert.Empty(JobProof.Of(Job(Row(3, 3, 1), Row(9, 4, 1) with { Rise = true }, Record.End), Machines.Gantry with { MayOverprint = true }).Cautions);

    [Fact]
    public void A_job_for_another_machine_and_another_grid_is_told_both_and_what_the_job_itself_breaks()
    {
        var job = Job(Row(15, 0, 5), Record.End) with { Machine = MachineDigest.Of("another"u8), Grid = new Grid(16, 16, 15) };
        var proof = JobProof.Of(job, Machines.Gantry);
        Assert.False(proof.IsProved);
        Assert.Equal([JobRule.OtherMachine, JobRule.OtherGeometry, JobRule.OffGrid], proof.Faults.Select(fault => fault.Rule));
        Assert.Equal([-1, -1, 0], proof.Faults.Select(fault => fault.Index));
    }

    [Fact]
    public void What_floats_over_an_empty_layer_is_a_caution()
    {
        var job = Job(Row(3, 3, 2), Record.Go(Head.A, new Cell(3, 3), rise: true), Row(3, 3, 2) with { Rise = true }, Record.End);
        var proof = JobProof.Of(job, Machines.Gantry);
        var caution = Assert.Single(proof.Cautions);
        Assert.Equal((JobRule.Overhang, -1), (caution.Rule, caution.Index));
    }

    [Fact]
    public void Faults_are_listed_up_to_a_bound()
    {
        var proof = JobProof.Of(Job(Patch(Head.A, 0, 0, 16, 16), Patch(Head.A, 0, 0, 16, 16), Row(0, 0, 1), Record.End), Machines.Gantry);
        Assert.Equal((JobProof.MostListed, 2), (proof.Faults.Count, proof.Passes)); // nothing behind them is looked at
    }

    private static JobFault Only(JobFile job, Machine machine) => Assert.Single(JobProof.Of(job, machine).Faults);

    private static JobFile Job(params Record[] records) => new(Machines.Gantry.Grid, Machines.Gantry.Digest, Image.Of(Width, records));

    private static Record Row(int x, int y, int cells) => Record.Row(Width, Head.A, new Cell(x, y), 0, cells);

    private static Record Patch(Head head, int x, int y, int cellsX, int cellsY) => Record.Patch(head, new Cell(x, y), cellsX, cellsY, PatchWay.AlongX);

    [Fact]
    public void Every_fault_says_where_what_was_found_what_is_allowed_and_what_to_do()
    {
        var machine = Machines.Gantry;
        var good = Job(Row(0, 0, 5), Record.End);
        Assert.Equal($"job file, byte 16: found a job planned with machine file {new string('0', 12)}; "
            + $"allowed: this one, {machine.Digest.ToString()[..12]} (test gantry). "
            + "Plan the shape again with this machine file, or give the other one.", $"{Only(good with { Machine = default }, machine)}");
        Assert.Equal("job file, byte 10: found a grid of 16 x 16 x 15; allowed: this machine's, 16 x 16 x 16. Plan the shape again for this machine.",
            $"{Only(good with { Grid = new Grid(16, 16, 15) }, machine)}");
        Assert.Equal("image: found records of 4 bits an axis; allowed: this machine's, 8. Plan the shape again for this machine.",
            $"{Only(good, machine with { Width = RecordWidth.Eight })}");
        Assert.Equal("image: found 258 bytes (86 records); allowed: up to 256 bytes, the store of test gantry (85 records). "
            + "Plan a simpler or smaller shape; bridge plan prints what each layer costs.",
            $"{Only(Job([.. Enumerable.Range(0, 85).Select(at => Row(at % 16, at / 16, 1)), Record.End]), machine)}");
        Assert.Equal("image, byte 3: found no end record; allowed: an end, or 85 records that fill the store. The image is cut short: write it again.",
            $"{Only(Job(Row(0, 0, 5)), machine)}");
        Assert.Equal("record 1 (byte 3): found cell (4, 0) on layer 0 worked again; allowed: each cell once, for this machine forbids overprint. "
            + "Take the cell out of one of the records.", $"{Only(Job(Row(0, 0, 5), Row(4, 0, 1), Record.End), machine)}");
        Assert.Equal("record 1 (byte 3): found head b; allowed: head a: this machine has no other. "
            + "Use head a in the shape, or describe head b in the machine file.",
            $"{Only(Job(Row(0, 0, 5), Patch(Head.B, 0, 1, 1, 1), Record.End), machine with { B = null })}");
    }

    [Fact]
    public void A_caution_says_how_near_a_cell_below_must_be_and_what_may_be_done()
    {
        var proof = JobProof.Of(Job(Row(3, 3, 1), Row(9, 4, 2) with { Rise = true }, Record.End), Machines.Gantry);
        Assert.Equal("layer 1: found 2 cells with nothing below them, the first (9, 4); allowed: a cell below within 1. "
            + "They may fall: put B cells under them, or let the plan add support.", $"{Assert.Single(proof.Cautions)}");
    }

    [Fact]
    public void An_image_without_end_is_good_where_the_store_has_no_room_for_one()
    {
        var machine = Machines.Gantry with { StoreBytes = 8 };
        Assert.True(JobProof.Of(Job(Row(0, 0, 5), Row(0, 1, 5)), machine).IsProved); // 6 of 8 bytes: no whole record more
        Assert.Equal(JobRule.NoEnd, Only(Job(Row(0, 0, 5), Row(0, 1, 5)), machine with { StoreBytes = 9 }).Rule);
        Assert.True(JobProof.Of(Job(Row(0, 0, 5), Record.End), machine with { StoreBytes = 6 }).IsProved);
    }

    [Fact]
    public void A_job_of_another_width_is_not_looked_into()
    {
        var proof = JobProof.Of(Job(Row(15, 0, 5), Record.End), Machines.Gantry with { Width = RecordWidth.Eight });
        Assert.Equal((0, 0, 1, 0), (proof.WorkedByA, proof.WorkedByB, proof.Layers, proof.Passes));
        Assert.Empty(proof.Cautions);
    }

    [Fact]
    public void Cautions_are_listed_up_to_a_bound()
    {
        var machine = Machines.Gantry with { Z = Machines.Gantry.Z! with { Cells = 300 }, OverhangCells = 0 };
        var rising = Row(0, 0, 1) with { Rise = true };
        var job = new JobFile(machine.Grid, machine.Digest, Image.Of(Width,
            [Row(0, 0, 1), rising with { X = 8 }, rising, Record.Again(Width, 2, 120), Record.End]));
        var proof = JobProof.Of(job, machine);
        Assert.Equal(JobProof.MostListed, proof.Cautions.Count);
        Assert.Equal(243, proof.Layers);
    }

    [Fact]
    public void A_head_that_is_missing_does_not_hide_what_else_is_wrong()
    {
        var job = Job(Patch(Head.B, 0, 0, 2, 2), Row(0, 0, 1), Record.End);
        Assert.Equal([JobRule.NoSuchHead, JobRule.WorkedTwice], JobProof.Of(job, Machines.Gantry with { B = null }).Faults.Select(fault => fault.Rule));
    }

    [Fact]
    public void The_cells_of_a_layer_are_told_in_rows_and_gone_when_it_is_cleared()
    {
        var cells = new LayerCells(new Grid(4, 3, 1));
        Assert.True(cells.Add(new Cell(3, 2)) && cells.Add(new Cell(1, 0)) && cells.Add(new Cell(0, 2)));
        Assert.False(cells.Add(new Cell(1, 0)));
        Assert.Equal([new Cell(1, 0), new Cell(0, 2), new Cell(3, 2)], cells.Cells());
        cells.Clear();
        Assert.Empty(cells.Cells());
        Assert.True(cells.Add(new Cell(1, 0)));
        Assert.Equal([new Cell(1, 0)], cells.Cells());
    }
}
